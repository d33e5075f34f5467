package house_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/testdata/fixture"
)

// A file that is no house at all is refused in few plain words, however large
// it is, and before a person wonders whether anything happens.
func TestFilesThatAreTooMuch(t *testing.T) {
	place := "[[place]]\nid = \"p%d\"\nkind = \"attic\"\n"
	var places, longKeys, variants strings.Builder
	places.WriteString("version = 1\n")
	for i := range 10000 {
		fmt.Fprintf(&places, place, i)
	}
	longKeys.WriteString("version = 1\n")
	for i := 0; longKeys.Len() < strict.MaxBytes-50; i++ {
		fmt.Fprintf(&longKeys, "k%d=1\n", i)
	}
	variants.WriteString("version = 1\n")
	for i := range house.MaxVariants + 1 {
		fmt.Fprintf(&variants, "[[variant]]\nname = \"v%d\"\n", i)
	}
	const name = "version = 1\nname = \""
	for _, c := range []struct{ what, text, want string }{
		{"10,000 places", places.String(), "big.toml:602: place: found 10000 places; want at most 200"},
		{"51 saved plans", variants.String(), "big.toml:102: variant: found 51 saved plans; want at most 50"},
		{"ten megabytes", strings.Repeat("# nothing\n", 1<<20), "big.toml: found a file of 10485760 bytes; want at most 1048576 bytes"},
		{"a name of a megabyte", name + strings.Repeat("a", 1<<20-len(name)-2) + "\"\n", "big.toml:2: name: found text of 1048554 characters; want one line of text of at most 200 characters"},
		{"a key of a megabyte", "version = 1\n" + strings.Repeat("k", 1<<20-20) + "=1\n", "found a key that is not used here"},
		{"a megabyte of unknown keys", longKeys.String(), "more mistakes from here on; want these fixed first, then read again"},
		{"a megabyte of open brackets", "version = 1\nname = " + strings.Repeat("[", 1<<20-30), "levels of tables and lists inside one another"},
		{"a megabyte of zeroes", strings.Repeat("\x00", 1<<20), "found the control character U+0000"},
	} {
		t.Run(c.what, func(t *testing.T) {
			start := time.Now()
			_, err := house.Read(fixture.List(t), "big.toml", c.text)
			took := time.Since(start)
			require.Error(t, err)
			require.Contains(t, err.Error(), c.want)
			require.LessOrEqual(t, strings.Count(err.Error(), "\n"), strict.MaxProblems)
			require.Less(t, len(err.Error()), 40_000)
			t.Logf("refused in %v", took) // no bound: the machine may be busy
		})
	}
}

// The limits are the last that is taken, not the first that is refused.
func TestJustWithinTheLimits(t *testing.T) {
	var b strings.Builder
	b.WriteString("version = 1\nname = \"" + strings.Repeat("é", house.MaxText) + "\"\n")
	for i := range house.MaxPlaces {
		fmt.Fprintf(&b, "[[place]]\nid = \"p%d\"\nkind = \"attic\"\n", i)
	}
	for i := range house.MaxVariants {
		fmt.Fprintf(&b, "[[variant]]\nname = \"v%d\"\n", i)
	}
	h, err := house.Read(fixture.List(t), "full", b.String())
	require.NoError(t, err)
	require.Len(t, h.Places, house.MaxPlaces)
	require.Len(t, h.Variants, house.MaxVariants)
	// Nothing that adds places goes beyond what can be read back.
	require.Empty(t, house.Propose(fixture.List(t), h))
	require.False(t, h.Duplicate("p7"))
	require.Len(t, h.Places, house.MaxPlaces)
}

// What a file may look like that other hands or programs wrote.
func TestFilesFromElsewhereAreRead(t *testing.T) {
	l := fixture.List(t)
	for what, text := range map[string]string{
		"windows lines":             "version = 1\r\nname = \"a\"\r\n",
		"byte order mark":           "\ufeffversion = 1\nname = \"a\"\n",
		"no line end at the end":    "version = 1\nname = \"a\"",
		"blanks around the text":    "version = 1\nname = \"  a \"\n",
		"single quotes":             "version = 1\nname = 'a'\n",
		"version last":              "name = \"a\"\nversion = 1\n",
		"comments and empty lines":  "# x\n\nversion = 1 # y\n\n\nname = \"a\" # z\n",
		"an escape":                 "version = 1\nname = \"\\u0061\"\n",
		"empty tables":              "version = 1\nname = \"a\"\n[site]\n[shape]\n[priorities]\n[budget]\n",
		"an empty text is no text":  "version = 1\nname = \"a\"\nrule_out_reason = \"\"\n",
		"blanks are no text either": "version = 1\nname = \"a\"\nrule_out_reason = \"  \"\n",
	} {
		h, err := house.Read(l, "f", text)
		require.NoError(t, err, what)
		require.Equal(t, house.Answers{"name": house.Text("a")}, h.Answers, what)
	}
	h, err := house.Read(l, "f", "version = 1\nname = \"unknown\"\n[site]\nstate = \"unknown\"\n")
	require.NoError(t, err)
	require.Equal(t, house.Text("unknown"), h.Answers["name"], "a house may be called so")
	require.Equal(t, house.DontKnow(), h.Answers["site.state"])
	h, err = house.Read(l, "f", "version = 1\nrule_out = [\"cotton\", \"cotton\"]\n[[place]]\nkind = \"attic\"\nmeasured = [\"area_ft2\", \"area_ft2\"]\n")
	require.NoError(t, err)
	require.Equal(t, house.List("cotton"), h.Answers["rule_out"], "named twice is ruled out once")
	require.Equal(t, []string{"area_ft2"}, h.Places[0].Measured)
}

// A place without an id gets one that no place has, wherever the other is.
func TestPlacesWithoutIDs(t *testing.T) {
	h, err := house.Read(fixture.List(t), "f", `version = 1
[[place]]
kind = "attic"
[[place]]
id = "attic"
kind = "attic"
[[place]]
kind = "attic"
[[place]]
id = "attic-2"
kind = "exterior-wall"
`)
	require.NoError(t, err)
	var ids []string
	for _, p := range h.Places {
		ids = append(ids, p.ID)
	}
	require.Equal(t, []string{"attic-3", "attic", "attic-4", "attic-2"}, ids)
}
