package strict

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

type (
	outer struct {
		A int `toml:"a"`
		Middle
		*Pointed
	}
	Middle struct {
		A string `toml:"a"` // hidden by outer.A
		B int    `toml:"b"`
	}
	Pointed struct {
		C *Pointed `toml:"c"`
		D float32  `toml:"d"`
	}
	named struct {
		Middle `toml:"middle"`
	}
)

func TestEmbedded(t *testing.T) {
	var o outer
	_, err := Decode("h", "a = 1\nb = 2\nd = 0.5\n[c]\nd = 1\n[c.c]\nd = 2", &o)
	require.NoError(t, err)
	require.Equal(t, outer{A: 1, Middle: Middle{B: 2}, Pointed: &Pointed{D: 0.5, C: &Pointed{D: 1, C: &Pointed{D: 2}}}}, o)

	var none outer
	_, err = Decode("h", "a = 1", &none)
	require.NoError(t, err)
	require.Nil(t, none.Pointed, "made only for a key that is there")

	var n named
	_, err = Decode("h", "middle = { b = 3 }", &n)
	require.NoError(t, err)
	require.Equal(t, 3, n.B)
}

// A value that no file can fill is the program's mistake and says so.
func TestTargets(t *testing.T) {
	var twice struct {
		A int `toml:"a"`
		B int `toml:"a"`
	}
	var channel struct {
		A chan int `toml:"a"`
	}
	var reader struct {
		A fmt.Stringer `toml:"a"`
	}
	var keys struct {
		A map[int]string `toml:"a"`
	}
	number := 1
	for _, v := range []any{nil, 1, &number, houseFile{}, (*houseFile)(nil), map[string]any{}, &twice, &channel, &reader, &keys} {
		_, err := Decode("h", "a = 1", v)
		require.ErrorIs(t, err, ErrTarget, "%T", v)
	}
	require.ErrorIs(t, DecodePlain("a = 1", 1), ErrTarget)
}

func TestDecodeWithoutATree(t *testing.T) {
	var h houseFile
	lines, err := Decode("h", "version = \n", &h)
	require.ErrorContains(t, err, `h:1: found "version ="; want after the equals sign`)
	require.Zero(t, lines.Of("version"))
}

// even is a number that looks at itself.
type even int

func (e even) Problem() (found, want string) {
	if e%2 != 0 {
		return "an odd number", "an even one"
	}
	return "", ""
}

// A type with a method Problem is asked, and its words come with the line.
func TestValuesThatCheckThemselves(t *testing.T) {
	var o struct {
		N    even   `toml:"n"`
		List []even `toml:"list"`
	}
	_, err := Decode("h", "n = 2\nlist = [4, 6]", &o)
	require.NoError(t, err)
	_, err = Decode("h", "n = 3\nlist = [4,\n5]", &o)
	var ps Problems
	require.ErrorAs(t, err, &ps)
	require.Len(t, ps, 2)
	require.Equal(t, Problem{File: "h", Line: 1, Key: "n", Found: "an odd number", Want: "an even one"}, ps[0])
	require.Equal(t, "list[1]", ps[1].Key)
}
