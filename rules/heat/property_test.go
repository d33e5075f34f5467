package heat

import (
	"math"
	classic "math/rand"
	"math/rand/v2"
	"testing"
	"testing/quick"

	"github.com/stretchr/testify/require"
)

// randomAssembly draws films, boards and up to three bridged layers.
func randomAssembly(rng *rand.Rand) []Layer {
	layers := []Layer{Plain(0.17 + rng.Float64())}
	for range rng.IntN(5) {
		layers = append(layers, Plain(rng.Float64()*10))
	}
	for range rng.IntN(4) {
		at := rng.IntN(len(layers) + 1)
		l := Framed(0.5+rng.Float64()*40, 0.1+rng.Float64()*12, rng.Float64())
		layers = append(layers[:at], append([]Layer{l}, layers[at:]...)...)
	}
	return layers
}

func TestBoundsAreInOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 3))
	for range 2000 {
		b, err := BoundsOf(randomAssembly(rng))
		require.NoError(t, err)
		require.LessOrEqual(t, b.Isothermal, b.Mean)
		require.LessOrEqual(t, b.Mean, b.Parallel)
	}
}

func TestMoreRAnywhereIsNeverLess(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 7))
	for range 1000 {
		layers := randomAssembly(rng)
		before, err := BoundsOf(layers)
		require.NoError(t, err)
		l := layers[rng.IntN(len(layers))]
		l[rng.IntN(len(l))].R += rng.Float64() * 5
		after, err := BoundsOf(layers)
		require.NoError(t, err)
		const ulp = 1e-12
		require.GreaterOrEqual(t, after.Isothermal, before.Isothermal*(1-ulp))
		require.GreaterOrEqual(t, after.Mean, before.Mean*(1-ulp))
		require.GreaterOrEqual(t, after.Parallel, before.Parallel*(1-ulp))
	}
}

func TestOrderOfLayersDoesNotMatter(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 1))
	for range 300 {
		layers := randomAssembly(rng)
		before, err := BoundsOf(layers)
		require.NoError(t, err)
		rng.Shuffle(len(layers), func(i, j int) { layers[i], layers[j] = layers[j], layers[i] })
		after, err := BoundsOf(layers)
		require.NoError(t, err)
		require.InEpsilon(t, before.Isothermal, after.Isothermal, 1e-12)
		require.InEpsilon(t, before.Parallel, after.Parallel, 1e-12)
	}
}

func TestFramingOfNoneOrAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	for range 300 {
		fill, wood, rest := rng.Float64()*40, rng.Float64()*15, rng.Float64()*5+0.1
		for share, want := range map[float64]float64{0: fill + rest, 1: wood + rest} {
			b, err := BoundsOf([]Layer{Plain(rest), Framed(fill, wood, share)})
			require.NoError(t, err)
			for _, got := range []float64{b.Isothermal, b.Mean, b.Parallel} {
				require.InEpsilon(t, want, got, 1e-12)
			}
		}
	}
}

func TestCompressionIsMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 2))
	for range 2000 {
		label := 1 + rng.Float64()*15
		nominal := label * (2.5 + rng.Float64()*2) // 2.5 to 4.5 an inch
		thin := label/MaxSqueeze + rng.Float64()*label/2
		thick := thin + rng.Float64()
		a, err := CompressedR(nominal, label, thin)
		require.NoError(t, err)
		b, err := CompressedR(nominal, label, thick)
		require.NoError(t, err)
		require.LessOrEqual(t, a, b*(1+1e-12), "thinner cannot insulate better")
		require.LessOrEqual(t, a, nominal*(1+1e-12))
		if thick <= label {
			require.GreaterOrEqual(t, a/thin, b/thick*(1-1e-12), "but each inch of it can")
		}
		better, err := CompressedR(nominal*1.05, label, thin)
		require.NoError(t, err)
		require.Greater(t, better, a)
	}
}

func TestMoreVoidIsNeverMoreR(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	for range 2000 {
		fill, other, empty := rng.Float64()*60, rng.Float64()*10+0.01, rng.Float64()*3
		p := rng.Float64()
		q := p + rng.Float64()*(1-p)
		few, err := WithVoids(fill, other, empty, p)
		require.NoError(t, err)
		many, err := WithVoids(fill, other, empty, q)
		require.NoError(t, err)
		require.LessOrEqual(t, many, few)
		require.LessOrEqual(t, few, fill)
		require.GreaterOrEqual(t, many, math.Min(empty, fill))
		all, err := WithVoids(fill, other, empty, 1)
		require.NoError(t, err)
		require.InDelta(t, math.Min(empty, fill), all, 1e-9)
	}
}

// Whatever is put in, no call panics and none returns NaN without an error.
func TestNoInputIsFatal(t *testing.T) {
	sane := func(v float64, err error) bool { return err != nil || !(math.IsNaN(v) || math.IsInf(v, 0)) }
	check := func(a, b, c, d float64, i, j uint8) bool {
		odd := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e308, 5e-324, 1e9, 1, 0.5}
		x, y := odd[int(i)%len(odd)], odd[int(j)%len(odd)]
		for _, v := range [][4]float64{{a, b, c, d}, {x, y, 1, 2}, {1, x, 2, y}, {1, 2, x, y}, {x, x, y, y}, {y, 1, 1, x}} {
			r, err := CompressedR(v[0], v[1], v[2])
			if !sane(r, err) {
				return false
			}
			bounds, err := BoundsOf([]Layer{Plain(v[0]), Framed(v[1], v[2], v[3])})
			if !sane(bounds.Isothermal+bounds.Mean+bounds.Parallel, err) {
				return false
			}
			for n, call := range []func() (float64, error){
				func() (float64, error) { return WithVoids(v[0], v[1], v[2], v[3]) },
				func() (float64, error) { return GroundWallU(v[0], v[1], v[2], v[3]) },
				func() (float64, error) { return CeilingLoad(v[0], v[1]) },
				func() (float64, error) { return FuelCost(v[0], Fuel{Btu: v[1]}, v[2], v[3]) },
				func() (float64, error) {
					h, c, err := DegreeDaysFromMonths([12]float64{v[0], v[1], v[2]}, v[3])
					return h + c, err
				},
			} {
				if r, err := call(); !sane(r, err) {
					t.Logf("call %d of %v gives %v", n, v, r)
					return false
				}
			}
		}
		return true
	}
	require.NoError(t, quick.Check(check, &quick.Config{MaxCount: 2000, Rand: classic.New(classic.NewSource(5))}))
}

func TestAssembliesThatCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		layers []Layer
		want   error
	}{
		"nothing":         {nil, ErrNoResistance},
		"no R at all":     {[]Layer{Plain(0)}, ErrNoResistance},
		"a bare path":     {[]Layer{Framed(13, 0, 0.2)}, ErrNoResistance},
		"empty layer":     {[]Layer{{}}, ErrShares},
		"shares short":    {[]Layer{{{0.5, 1}, {0.4, 1}}}, ErrShares},
		"share above 1":   {[]Layer{Framed(13, 4, 1.5)}, ErrShares},
		"share NaN":       {[]Layer{Framed(13, 4, math.NaN())}, ErrShares},
		"negative R":      {[]Layer{Plain(-1)}, ErrOutOfRange},
		"R not a number":  {[]Layer{Plain(math.NaN())}, ErrOutOfRange},
		"R without limit": {[]Layer{Plain(math.Inf(1))}, ErrOutOfRange},
	} {
		_, err := BoundsOf(c.layers)
		require.ErrorIs(t, err, c.want, name)
	}
	many := make([]Layer, 40)
	for i := range many {
		many[i] = Framed(13, 4, 0.2)
	}
	_, err := BoundsOf(many)
	require.ErrorIs(t, err, ErrTooManyPaths)
}
