package ask_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/tui"
	"battwright/tui/ask"
)

// reply is one answer in both ways of giving it: keys for the screens, a line
// for here.
type reply struct {
	keys []tea.KeyMsg
	line string
}

var (
	enter = tea.KeyMsg{Type: tea.KeyEnter}
	tab   = tea.KeyMsg{Type: tea.KeyTab}
	down  = tea.KeyMsg{Type: tea.KeyDown}
	space = tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	next  = tea.KeyMsg{Type: tea.KeyCtrlN}
	wipe  = tea.KeyMsg{Type: tea.KeyCtrlU} // what stands in the field already
	leave = reply{[]tea.KeyMsg{tab}, "skip"}
	dunno = reply{[]tea.KeyMsg{{Type: tea.KeyCtrlD}}, "don't know"}
)

func runes(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }

// replies decides on an answer to each question before anybody asks it.
type replies struct {
	rnd  *rand.Rand
	made map[string]reply // by place and key
}

func (r *replies) to(q house.Question, place int) reply {
	key := fmt.Sprint(place, q.FullKey())
	if _, ok := r.made[key]; !ok {
		r.made[key] = r.make(q)
	}
	return r.made[key]
}

func (r *replies) make(q house.Question) reply {
	switch q.FullKey() {
	case "site.state":
		return reply{[]tea.KeyMsg{runes("vt"), enter}, "vt"}
	case "site.county":
		return reply{[]tea.KeyMsg{runes("Chittenden"), enter}, "Chittenden"}
	}
	switch n := r.rnd.IntN(10); {
	case n < 3:
		return leave
	case n < 5 && q.DontKnow:
		return dunno
	}
	options := len(q.Options)
	switch q.Kind {
	case house.YesNoKind:
		if r.rnd.IntN(2) == 0 {
			return reply{[]tea.KeyMsg{runes("y")}, "yes"}
		}
		return reply{[]tea.KeyMsg{runes("n")}, "no"}
	case house.Choice:
		if options > 9 || q.Offers != nil { // some of them may not be offered here
			return leave
		}
		i := strconv.Itoa(1 + r.rnd.IntN(options))
		return reply{[]tea.KeyMsg{runes(i)}, i}
	case house.Many:
		n := r.rnd.IntN(options)
		pressed := slices.Repeat([]tea.KeyMsg{down}, n)
		return reply{append(pressed, space, tab), strconv.Itoa(1 + n)}
	case house.NumberKind:
		v := math.Round(q.Min + r.rnd.Float64()*r.rnd.Float64()*(q.Max-q.Min))
		if v < q.Min || v > q.Max {
			return leave
		}
		s := strconv.FormatFloat(v, 'f', -1, 64)
		return reply{[]tea.KeyMsg{wipe, runes(s), enter}, s}
	case house.TextKind:
		if q.Scope == house.Site {
			return leave
		}
		s := fmt.Sprintf("name %d", r.rnd.IntN(1000))
		return reply{[]tea.KeyMsg{wipe, runes(s), enter}, s}
	}
	return leave
}

// named finds the question of a prompt: those of a place on its screens, those
// of the house elsewhere.
func named(t *testing.T, prompt, kind string) house.Question {
	t.Helper()
	for _, q := range fixture.List(t).Questions {
		if q.Prompt.String() == prompt && (q.Scope == house.PlaceScope) == (kind != "") && (kind == "" || q.For(kind)) {
			return q
		}
	}
	require.Fail(t, "nobody asks that", "%q of %q", prompt, kind)
	return house.Question{}
}

// sameLines says only where two long texts part.
func sameLines(t *testing.T, want, got string) {
	t.Helper()
	if want == got {
		return
	}
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range w {
		if i >= len(g) || w[i] != g[i] {
			require.Equal(t, w[max(0, i-3):min(len(w), i+2)], g[min(len(g), max(0, i-3)):min(len(g), i+2)], "line %d", i+1)
		}
	}
	require.Len(t, g, len(w))
}

var asked = regexp.MustCompile(`(?m)^\d+ of \d+\. (.*)$`)

// ledTo is the heading of a place on the way to an order.
var ledTo = regexp.MustCompile(`(?m) \(place (\d+) of \d+\)$`)

// lines plays the same house here.
func lines(t *testing.T, r *replies, rough bool, kinds []string) (kept, text string) {
	t.Helper()
	todo := []string{map[bool]string{true: "1", false: "2"}[rough]}
	for i := range kinds {
		todo = append(todo, "edit "+strconv.Itoa(i+1))
	}
	todo = append(todo, "next", "next", "export", "1")
	place, kind := -1, ""
	noise := rand.New(rand.NewPCG(7, 7)) // words on the way change nothing
	var last house.Question
	p := &partner{}
	p.answer = func(since string) (string, bool) {
		switch {
		case strings.HasSuffix(since, "Answer: "):
			found := asked.FindAllStringSubmatch(since, -1)
			if len(found) == 0 { // the prompt again, after help
				return r.to(last, place).line, true
			}
			require.Len(t, found, 1, since)
			if led := ledTo.FindStringSubmatch(since); led != nil {
				place, _ = strconv.Atoi(led[1])
				place--
				kind = kinds[place]
			} else if strings.Contains(since, "What matters\n") {
				place, kind = -1, ""
			}
			q := named(t, found[0][1], kind)
			last = q
			if q.Key == "rule_out_reason" && q.Scope == house.Top {
				return "", true // the screens do not ask it
			}
			switch n := noise.IntN(20); {
			case n == 0:
				return "Help", true
			case n == 1 && !strings.HasPrefix(found[0][0], "1 of "):
				return "back", true
			}
			return r.to(q, place).line, true
		case strings.HasSuffix(since, "File: "):
			return "mine", true
		case len(todo) == 0:
			return "quit", true
		}
		line := todo[0]
		todo = todo[1:]
		place, kind = -1, ""
		if n, ok := strings.CutPrefix(line, "edit "); ok {
			place, _ = strconv.Atoi(n)
			place--
			kind = kinds[place]
		}
		return line, true
	}
	store := fixture.NewMemory()
	require.NoError(t, ask.Run(p, p, ask.Config{List: fixture.List(t), Store: store, Width: 200}), p.written.String())
	return store.Text, store.Files["mine.txt"]
}

// The same answers give the same house and the same report, byte for byte, in
// screens and in lines.
func TestLinesEqualScreens(t *testing.T) {
	for seed := range uint64(5) {
		rough := seed == 3
		t.Run(fmt.Sprintf("house %d, rough %t", seed, rough), func(t *testing.T) {
			r := &replies{rnd: rand.New(rand.NewPCG(seed, 10)), made: map[string]reply{}}
			store := fixture.NewMemory()
			s := &screens{t: t, store: store, r: r, m: tui.NewModel(tui.Config{List: fixture.List(t), Store: store, Mono: true, ASCII: true})}
			s.send(tea.WindowSizeMsg{Width: 200, Height: 90})
			kept, text := s.whole(rough)

			h, err := house.Read(fixture.List(t), "kept", kept)
			require.NoError(t, err)
			require.NotEmpty(t, h.Places)
			require.Greater(t, strings.Count(kept, "\n"), 20, "hardly anything was answered")
			kinds := make([]string, len(h.Places))
			for i, p := range h.Places {
				kinds[i] = p.Kind
			}
			keptHere, textHere := lines(t, r, rough, kinds)
			sameLines(t, kept, keptHere)
			sameLines(t, text, textHere)
			sameLines(t, print.Text(pages.PlanPage(plan.Make(house.Answered{List: fixture.List(t), House: h}), pages.Options{Catalog: fixture.List(t).Catalog()}), pages.Options{Catalog: fixture.List(t).Catalog()}.Width), textHere)
		})
	}
}
