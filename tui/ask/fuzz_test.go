package ask_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// Whatever is typed: the run ends with the input, what it writes can be read
// on any terminal, and what it keeps can be read again.
func FuzzAnswers(f *testing.F) {
	f.Add(strings.Join(everything, "\n"))
	f.Add("1\n2\ny\nvt\nChittenden\n40\n28\n2\nattic\n4\n?\nmasonry\nedit 1\nback\nnext\n1,2\n\n5\nnext\nquit")
	f.Add("2\n\"quit\"\nmore\nfewer\ndone\nadd\n1\nback\ndelete 1\nyes\npropose\ncopy 1\nsave\nx\nx\nplans\n")
	f.Add("4\nnowhere.toml\nback\n5\nword \xff\x00\x1b[2J\nexport\n")
	f.Add("3\nmoney\n2\n1e309\n-5\n$ 1,200\nalike\nladder\norder\ncheck\nstart\n1\n")
	f.Fuzz(func(t *testing.T, typed string) {
		if len(typed) > 1500 {
			return
		}
		store := fixture.NewMemory()
		var out strings.Builder
		err := ask.Run(strings.NewReader(typed), &out, ask.Config{List: fixture.List(t), Store: store, Echo: true})
		if err != nil && !errors.Is(err, ask.ErrEnded) {
			t.Fatal(err)
		}
		checkOutput(t, out.String(), 78)
		if store.Kept {
			h, err := house.Read(fixture.List(t), "kept", store.Text)
			require.NoError(t, err, store.Text)
			require.Equal(t, store.Text, house.Write(fixture.List(t), h))
		}
	})
}
