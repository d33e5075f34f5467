package ask_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
	"battwright/tui/ask"
	"battwright/tui/session"
)

// Whatever is typed: the run ends with the input, what it writes can be read
// on any terminal, and what it keeps can be read again.
func FuzzAnswers(f *testing.F) {
	f.Add(strings.Join(everything, "\n"))
	f.Add("1\n2\ny\nvt\nChittenden\n40\n28\n2\nattic\n4\n?\nmasonry\nedit 1\nback\nnext\n1,2\n\n5\nnext\nquit")
	f.Add("2\n\"quit\"\nmore\nfewer\ndone\nadd\n1\nback\ndelete 1\nyes\npropose\ncopy 1\nsave\nx\nx\nplans\n")
	f.Add("4\nnowhere.toml\nback\n5\nword \xff\x00\x1b[2J\nexport\n")
	f.Add("3\ncheck\nsheets\n8\nwrite\nx\nx\nback\npages\n2\nwrite 2\ny\nback\noffers\nopen\nbold.toml\nopen\nmetric.toml\n1\ncompare\nclose 1\nblank\nback\nready\nquit")
	f.Add("3\ncheck\nfinished work\n8\ny\nclear\nn\n1 1/2\n\nmore\nback\nsave\nx\ndone\nopen\nmixed.toml\nyes\nopen\nbad.toml\nresult\nwrite\nf\nopen\nf\nwrite form\nf")
	f.Add("3\ncheck\nfinished work\n1\n25, 38\n\n\n\n\n12 ft, x\n\n12 x 2\nquit")
	f.Add("2\n1e309\nready\nquit")
	f.Add("3\nmoney\n2\n1e309\n-5\n$ 1,200\nalike\nladder\norder\ncheck\nstart\n1\n")
	f.Fuzz(func(t *testing.T, typed string) {
		if len(typed) > 1500 {
			return
		}
		store := site(t)
		store.Files["bad.toml"] = "[[place]]\nid = \"attik\"\nbatt_in_gap = 3\n[[place]]\nid = \"rim\"\nlabel_r = \"R-19\"\n"
		var out strings.Builder
		err := ask.Run(strings.NewReader(typed), &out, ask.Config{List: fixture.List(t), Store: store, Echo: true})
		if err != nil && !errors.Is(err, ask.ErrEnded) {
			t.Fatal(err)
		}
		checkOutput(t, out.String(), 78)
		if store.Kept {
			l := fixture.List(t)
			h, err := house.Read(l, "kept", store.Text)
			require.NoError(t, err, store.Text)
			way := session.KeptWay(session.WayOf(store.Text))
			kept := store.Text
			if strings.HasPrefix(kept, house.BeganMark) {
				_, kept, _ = strings.Cut(kept, "\n")
			}
			about, _, _ := strings.Cut(kept, "\n#| ")
			require.Equal(t, about, way+house.Write(l, h))
			w := inspect.NewWalk(l.Catalog())
			w.TakeUp(planned.Job(house.Answered{List: l, House: h}), store.Text)
			require.Equal(t, kept, way+house.Write(l, h)+w.Kept())
		}
	})
}
