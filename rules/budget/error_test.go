package budget

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

func TestImpossibleHouses(t *testing.T) {
	one := func(o ...Option) []Place { return []Place{{"attic", o}} }
	good := Option{"a", 100, 1}
	many := make([]Option, MaxOptions+1)
	for j := range many {
		many[j] = Option{ID: fmt.Sprint(j)}
	}
	cases := []struct {
		name   string
		places []Place
		want   error
	}{
		{"no places", nil, ErrNoPlaces},
		{"too many places", make([]Place, MaxPlaces+1), ErrSize},
		{"no options", one(), ErrNoOptions},
		{"too many options", one(many...), ErrSize},
		{"place without id", []Place{{"", []Option{good}}}, ErrID},
		{"same place twice", []Place{{"x", []Option{good}}, {"x", []Option{good}}}, ErrID},
		{"option without id", one(Option{"", 1, 1}), ErrID},
		{"same option twice", one(good, good), ErrID},
		{"negative cost", one(Option{"a", -1, 1}), ErrCost},
		{"huge cost", one(Option{"a", math.MaxInt64, 1}), ErrCost},
		{"value not a number", one(Option{"a", 1, math.NaN()}), ErrValue},
		{"value infinite", one(Option{"a", 1, math.Inf(-1)}), ErrValue},
		{"value huge", one(Option{"a", 1, 1e300}), ErrValue},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := BestPooled(pooledOf(c.places), nil, 1000)
			require.ErrorIs(t, err, c.want)
		})
	}
	_, err := BestPooled(pooledOf(one(good)), nil, -1)
	require.ErrorIs(t, err, ErrBudget)
	require.ErrorContains(t, err, "-1")
}

func TestImpossiblePrices(t *testing.T) {
	cases := []struct {
		name  string
		price units.Range[units.Cents]
		want  error
	}{
		{"negative", units.Range[units.Cents]{Low: -1, Typical: 1, High: 2}, ErrCost},
		{"huge", units.Range[units.Cents]{Low: 1, Typical: 1, High: MaxCost + 1}, ErrCost},
		{"low over typical", units.Range[units.Cents]{Low: 3, Typical: 2, High: 4}, ErrRange},
		{"typical over high", units.Range[units.Cents]{Low: 1, Typical: 5, High: 4}, ErrRange},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := Sum([]units.Range[units.Cents]{units.Same(units.Cents(5)), c.price})
			require.ErrorIs(t, err, c.want)
		})
	}
	_, err := Sum(nil)
	require.ErrorIs(t, err, ErrNoLines)
	_, err = Sum(make([]units.Range[units.Cents], MaxLines+1))
	require.ErrorIs(t, err, ErrSize)
	total, err := Sum([]units.Range[units.Cents]{{Low: 1, Typical: 2, High: 3}})
	require.NoError(t, err)
	for _, bad := range []float64{math.NaN(), -0.01, 1.01, math.Inf(1)} {
		_, err = total.Percentile(bad)
		require.ErrorIs(t, err, ErrShare)
	}
}
