package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// FuzzRead: no text makes it panic; what is refused is refused with problems
// that a terminal can show; what is taken can be written and read again.
func FuzzRead(f *testing.F) {
	for _, name := range demo.Names() {
		f.Add(demo.Text(name))
	}
	for _, name := range []string{"many/ten-mistakes", "keys/empty-key", "numbers/nan-beside-other-mistakes", "types/plan-priorities-tables", "values/measured-nested", "characters/key-with-override-escaped", "syntax/fraction", "types/place-list-of-inline-tables"} {
		f.Add(brokenText(f, name+".toml"))
	}
	f.Add("version=1\nname='unknown'\n[site]\nstate='ŉß'\nmonths=[-0.0,1e-300,0.1,3,4,5,6,7,8,9,10,11]\n[[place]]\nkind='attic'\nlabel=\"\\t\"\npriorities.cost=3.0\n")
	l := fixture.List(f)
	f.Fuzz(func(t *testing.T, text string) {
		h, err := house.Read(l, "fuzz.toml", text)
		_ = house.HasComments(text)
		if err != nil {
			var problems strict.Problems
			require.ErrorAs(t, err, &problems)
			require.NotEmpty(t, problems)
			for _, p := range problems {
				require.NotEmpty(t, p.Want)
				clean, changed := strict.CleanText(p.Error())
				require.False(t, changed, clean)
			}
			return
		}
		written := house.Write(l, h)
		again, err := house.Read(l, "again.toml", written)
		require.NoError(t, err, written)
		sameHouse(t, h, again, written)
		require.Equal(t, written, house.Write(l, again))
	})
}

// FuzzParse: whatever is typed at whatever question, an answer that is taken
// is one that the question takes, and writing it out for editing and reading
// it again gives an answer too.
func FuzzParse(f *testing.F) {
	for i, s := range []string{"7 1/4", "8 ft 2 in", "$1,200", "R-21", "yes", "don't know", "?", "cotton, fiberglass", "none", "VT", "-5", "1e9", "nan", "\x1b[2J", "1/2 1/2 1/2", "0,1,2,3,4,5,6,7,8,9,10,11"} {
		f.Add(i, s)
	}
	l := fixture.List(f)
	f.Fuzz(func(t *testing.T, which int, typed string) {
		n := len(l.Questions)
		q := l.Questions[((which%n)+n)%n]
		a, err := q.Parse(typed)
		if err != nil {
			require.ErrorIs(t, err, house.ErrAnswer)
			return
		}
		require.NoError(t, q.Check(a), q.FullKey())
		if q.Kind == house.NumberKind && a.State == house.Given {
			_, err := q.Parse(q.Plain(a))
			if a.Number-q.Min > 1e-3 && q.Max-a.Number > 1e-3 { // else rounding may leave the range
				require.NoError(t, err, "%s: %q gives %v, shown as %q", q.FullKey(), typed, a.Number, q.Plain(a))
			}
		}
	})
}
