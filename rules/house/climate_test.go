package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// Weather of a place that is not listed is refused wherever it is typed: there
// would be no damp check, and nobody would be told.
func TestWeatherMustBeOfAListedPlace(t *testing.T) {
	q := find(t, fixture.List(t), "site.climate")
	_, err := q.Parse("burlington-vt")
	require.NoError(t, err)
	for typed, want := range map[string]string{
		"Atlanta": "did you mean atlanta-ga?", "burlingtn-vt": "did you mean burlington-vt?", "Timbuktu": "one of the listed places: ",
	} {
		_, err := q.Parse(typed)
		require.ErrorContains(t, err, want)
	}
}
