package house_test

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// sameHouse compares by what was said; an empty list and none are the same.
func sameHouse(t testing.TB, want, got *house.House, text string) {
	t.Helper()
	sameAnswers(t, want.Answers, got.Answers, text)
	require.Len(t, got.Places, len(want.Places), text)
	for i, p := range want.Places {
		q := got.Places[i]
		require.Equal(t, [2]string{p.ID, p.Kind}, [2]string{q.ID, q.Kind}, text)
		require.True(t, slices.Equal(p.Measured, q.Measured), "%s: %v, %v", text, p.Measured, q.Measured)
		sameAnswers(t, p.Answers, q.Answers, text)
	}
	require.True(t, slices.Equal(want.Quotes, got.Quotes), text)
	require.Len(t, got.Variants, len(want.Variants), text)
	for i, v := range want.Variants {
		require.Equal(t, v.Name, got.Variants[i].Name)
		sameAnswers(t, v.Answers, got.Variants[i].Answers, text)
	}
}

func sameAnswers(t testing.TB, want, got house.Answers, text string) {
	t.Helper()
	require.Len(t, got, len(want), text)
	for key, a := range want {
		require.True(t, a.Equal(got[key]), "%s: wrote %+v, read %+v\n%s", key, a, got[key], text)
	}
}

func TestDemoHousesAreReadAndKept(t *testing.T) {
	l := fixture.List(t)
	for _, name := range demo.Names() {
		h, err := house.Read(l, name, demo.Text(name))
		require.NoError(t, err)
		require.NotEmpty(t, h.Places, name)
		text := house.Write(l, h)
		again, err := house.Read(l, name, text)
		require.NoError(t, err)
		sameHouse(t, h, again, text)
		require.Equal(t, text, house.Write(l, again), "writing again changes nothing")
		require.True(t, house.HasComments(demo.Text(name)), "the demo houses explain themselves")
		require.False(t, house.HasComments(text))
	}
}

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	l := fixture.List(t)
	r := rand.New(rand.NewPCG(1, 2))
	seen := map[string]bool{} // by kind of place
	for range 300 {
		h := randomHouse(l, r)
		before := house.Write(l, h)
		require.Equal(t, before, house.Write(l, h.Clone()), "writing must not depend on the order of a map")
		got, err := house.Read(l, "kept", before)
		require.NoError(t, err, before)
		sameHouse(t, h, got, before)
		require.Equal(t, before, house.Write(l, got))
		for _, p := range h.Places {
			seen[p.Kind] = true
		}
	}
	require.Len(t, seen, len(l.PlaceKinds()), "every kind of place was tried")
}

// everyKey is a house with an answer to every question there is.
func everyKey(l *house.QuestionList, r *rand.Rand) *house.House {
	h := house.New()
	for _, q := range l.Questions {
		if q.Scope != house.PlaceScope {
			h.Answers.Set(q.FullKey(), randomAnswer(r, q))
		}
	}
	for _, kind := range l.PlaceKinds() {
		p := h.Add(kind)
		for _, q := range l.In(house.PlaceScope, kind) {
			p.Answers.Set(q.Key, randomAnswer(r, q))
		}
	}
	return h
}

// The question list and the keys of a file are the same, both ways: every
// question has a key that is written and read, and every key that is read is
// a question's.
func TestTheKeysAreTheQuestions(t *testing.T) {
	l := fixture.List(t)
	h := everyKey(l, rand.New(rand.NewPCG(3, 4)))
	text := house.Write(l, h)
	got, err := house.Read(l, "all", text)
	require.NoError(t, err)
	sameHouse(t, h, got, text)

	asked, answered := map[string]bool{}, map[string]bool{}
	for _, q := range l.Questions {
		require.False(t, asked[q.FullKey()], "%s is asked twice", q.FullKey())
		asked[q.FullKey()] = true
		_, found := l.Find(q.FullKey())
		require.True(t, found)
	}
	for key := range got.Answers {
		answered[key] = true
	}
	for _, p := range got.Places {
		for key := range p.Answers {
			answered["place."+key] = true
		}
	}
	require.Equal(t, asked, answered)

	// The other way: the file knows no key beside them.
	tree, problems := strict.Parse("all", text)
	require.Empty(t, problems)
	keys := map[string]bool{}
	leaves(t, tree, nil, "", keys)
	for _, structure := range []string{"version", "place.id", "place.kind"} {
		require.True(t, keys[structure], structure)
		delete(keys, structure)
	}
	require.Equal(t, asked, keys)
}

// leaves collects the keys that hold a value, without the numbers of places.
func leaves(t *testing.T, tree *strict.Tree, path []any, name string, into map[string]bool) {
	v, ok := tree.Get(path...)
	require.True(t, ok)
	switch v := v.(type) {
	case map[string]any:
		for key := range v {
			leaves(t, tree, append(slices.Clone(path), key), strings.TrimPrefix(name+"."+key, "."), into)
		}
	case []map[string]any:
		for i := range v {
			leaves(t, tree, append(slices.Clone(path), i), name, into)
		}
	default:
		into[name] = true
	}
}

// Every key with a slip in it is refused on its line, and where the slip
// leaves it recognizable, with the key that was meant.
func TestAKeyWithASlipIsRefused(t *testing.T) {
	l := fixture.List(t)
	h := everyKey(l, rand.New(rand.NewPCG(5, 6)))
	lines := strings.Split(house.Write(l, h), "\n")
	tried, guessed := 0, 0
	for i, row := range lines {
		key, value, isPair := strings.Cut(row, " = ")
		parts := strings.Split(key, ".")
		last := parts[len(parts)-1]
		if !isPair || len(last) < 4 {
			continue
		}
		wrong := swapped(last)
		if wrong == last {
			continue
		}
		broken := slices.Clone(lines)
		broken[i] = strings.TrimSuffix(key, last) + wrong + " = " + value
		_, err := house.Read(l, "slip", strings.Join(broken, "\n"))
		var problems strict.Problems
		require.ErrorAs(t, err, &problems, row)
		tried++
		for _, p := range problems {
			// A slip in "kind", "id" or "version" also leaves that key missing.
			if p.Line == i+1 && p.Found == "a key that is not used here" {
				require.Contains(t, p.Key, wrong)
				if p.Want == "did you mean "+last+"?" {
					guessed++
				}
			}
		}
	}
	require.Greater(t, tried, 100)
	require.Greater(t, float64(guessed), 0.9*float64(tried), "%d of %d guessed", guessed, tried)
}

// swapped exchanges two neighbouring letters in the middle.
func swapped(s string) string {
	b := []byte(s)
	m := len(b) / 2
	b[m-1], b[m] = b[m], b[m-1]
	return string(b)
}

// A file written before a key was renamed is read as before, and is written
// with the key of today. Both keys at once are a mistake, never a guess.
func TestKeysOfEarlierFilesAreRead(t *testing.T) {
	l, n := fixture.List(t), 0
	for _, q := range l.Questions {
		if q.Earlier == "" {
			continue
		}
		n++
		file := func(keys ...string) string {
			text := "version = 1\n"
			if q.Scope == house.PlaceScope {
				text += "[[place]]\nid = \"a\"\nkind = \"attic\"\n"
			} else {
				text += "[" + strings.TrimSuffix(q.FullKey(), "."+q.Key) + "]\n"
			}
			for _, key := range keys {
				text += key + " = \"" + q.Options[len(q.Options)-1].Value + "\"\n"
			}
			return text
		}
		now, err := house.Read(l, "now.toml", file(q.Key))
		require.NoError(t, err)
		before, err := house.Read(l, "before.toml", file(q.Earlier))
		require.NoError(t, err)
		sameHouse(t, now, before, q.FullKey())
		require.Equal(t, house.Write(l, now), house.Write(l, before))
		require.Contains(t, house.Write(l, before), q.Key+" = ")
		_, err = house.Read(l, "both.toml", file(q.Key, q.Earlier))
		require.ErrorContains(t, err, "did you mean "+q.Key)
	}
	require.Equal(t, 2, n)
}
