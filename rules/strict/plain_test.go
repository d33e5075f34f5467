package strict

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

type plainFile struct {
	Records []plainRecord            `toml:"record"`
	One     *plainRecord             `toml:"one"`
	By      map[string]plainRecord   `toml:"by"`
	Lists   map[string][]plainRecord `toml:"lists"`
	Any     any                      `toml:"any"`
	When    time.Time                `toml:"when"`
}

type plainRecord struct {
	ID     string           `toml:"id,required"`
	Text   string           `toml:"text"`
	Yes    bool             `toml:"yes"`
	Whole  int              `toml:"whole"`
	Number float64          `toml:"number"`
	Maybe  *float64         `toml:"maybe"`
	Four   [2][2]float64    `toml:"four"`
	Rows   [][]string       `toml:"rows"`
	Facts  map[string]any   `toml:"facts"`
	Counts map[mark]float32 `toml:"counts"`
	origin
}

// plainSamples are right files: both ways of reading must give the same.
var plainSamples = []string{
	"",
	"[[record]]\nid = 'a'\n",
	"[[record]]\r\nid = \"a\"\r\ntext = \"\"\"\r\ntwo\r\nlines\"\"\"\r\n",
	"\ufeff[one]\nid = 'x'\nnumber = 3\nmaybe = 4\nfour = [[1, 2.5], [3, 4]]\nrows = [[], ['a', 'b']]\nsource = 's'\nknown = 'memory'\n",
	"by.a = { id = 'a', whole = -7 }\n[by.b]\nid = 'b'\nyes = true\n[by.b.facts]\nplace = 'attic'\ndepth = 7.25\nlist = [1, 'x', [2]]\ntables = [{ a = 1 }]\n",
	"[[lists.x]]\nid = 'a'\n[[lists.x]]\nid = 'b'\ncounts = { low = 1, high = 2.5 }\n[[lists.y]]\nid = 'c'\nrows = []\n",
	"record = [ { id = 'a', facts = {} }, { id = 'b' } ]\nwhen = 2025-03-31T10:00:00Z\n",
	"any = 1979-05-27\n",
	"[[any]]\nx = 1\n[[any]]\nx = [{ y = 2 }]\n",
	"any.b.c = 9223372036854775807\n",
}

func TestDecodePlainGivesTheSame(t *testing.T) {
	for _, text := range plainSamples {
		var strictly, plainly plainFile
		_, err := Decode("f", text, &strictly)
		require.NoError(t, err, text)
		require.NoError(t, DecodePlain(text, &plainly), text)
		require.Equal(t, strictly, plainly, text)
	}
	require.Error(t, DecodePlain("any =", &plainFile{}))
	require.Error(t, DecodePlain("record = 1", &plainFile{}))
}

// The library does not know FromTOML; both ways must call it all the same.
func TestDecodePlainOfTypesThatReadThemselves(t *testing.T) {
	var strictly, plainly houseFile
	const text = "version = 1\n[[place]]\nid = 'a'\ndampness = 'wet'\n"
	_, err := Decode("f", text, &strictly)
	require.NoError(t, err)
	require.NoError(t, DecodePlain(text, &plainly))
	require.Equal(t, strictly, plainly)
	require.EqualValues(t, 2, plainly.Places[0].Dampness)
	require.ErrorContains(t, DecodePlain("version = 1\n[[place]]\nid = 'a'\ndampness = 2\n", &plainly), "one of dry, damp, wet")
}

func TestLimitsOfKinds(t *testing.T) {
	var all struct {
		I64 int64   `toml:"i64"`
		I   int     `toml:"i"`
		U64 uint64  `toml:"u64"`
		F   float64 `toml:"f"`
	}
	const text = "i64 = -9223372036854775808\ni = 9223372036854775807\nu64 = 9223372036854775807\nf = -9007199254740991\n"
	_, err := Decode("f", text, &all)
	require.NoError(t, err)
	require.EqualValues(t, math.MinInt64, all.I64)
	require.Equal(t, math.MaxInt, all.I)
	require.EqualValues(t, math.MaxInt64, all.U64)
	require.EqualValues(t, -(1<<53 - 1), all.F)
	_, err = Decode("f", "u64 = -1", &all)
	require.ErrorContains(t, err, "from 0 to 18446744073709551615")
}
