package house

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Version is the newest house file version this program reads and writes.
const Version = 1

// Limits of a house. A file beyond them is refused in plain words.
const (
	MaxPlaces   = 200
	MaxVariants = 50
	MaxText     = 200
)

// House is one house as the builder described it.
type House struct {
	Answers  Answers
	Places   []Place
	Variants []Variant
	Quotes   []Quote // what labels and stores say
}

// Place is one surface to insulate.
type Place struct {
	ID       string
	Kind     string
	Answers  Answers
	Measured []string // keys measured rather than guessed
	Unread   []Unread // of finished work: what its file says and nobody could read
}

// Unread is an answer that a file gives and that could not be read, with why.
type Unread struct{ Key, Why string }

// Variant is a set of priorities and a budget kept under a name.
type Variant struct {
	Name    string
	Answers Answers // the keys of the priorities and budget questions
	// Was is what the plan chose when it was kept, by place id in plain words,
	// so that it can be said what changed since.
	Was map[string]string
}

// New is an empty house.
func New() *House { return &House{Answers: Answers{}} }

// Clone copies a house deeply, so that a change can be tried and thrown away.
func (h *House) Clone() *House {
	out := &House{Answers: h.Answers.Clone(), Quotes: slices.Clone(h.Quotes)}
	for _, p := range h.Places {
		p.Answers, p.Measured = p.Answers.Clone(), slices.Clone(p.Measured)
		out.Places = append(out.Places, p)
	}
	for _, v := range h.Variants {
		v.Answers, v.Was = v.Answers.Clone(), maps.Clone(v.Was)
		out.Variants = append(out.Variants, v)
	}
	return out
}

// CloneFor is Clone for a change of one place, or of none when id is empty: what
// is not about it is shared and must not be changed.
func (h *House) CloneFor(id string) *House {
	out := *h
	out.Places = slices.Clone(h.Places)
	if p := out.Place(id); p != nil {
		p.Answers, p.Measured = p.Answers.Clone(), slices.Clone(p.Measured)
	}
	return &out
}

// Place finds a place by id, or nil.
func (h *House) Place(id string) *Place {
	for i := range h.Places {
		if h.Places[i].ID == id {
			return &h.Places[i]
		}
	}
	return nil
}

// FreeID makes an id for a new place of a kind that no place has yet.
func (h *House) FreeID(kind string) string {
	return firstFree(kind, "-", func(id string) bool { return h.Place(id) != nil })
}

// firstFree is the name itself, or with the first number behind it that is not
// taken.
func firstFree(name, between string, taken func(string) bool) string {
	out := name
	for n := 2; taken(out); n++ {
		out = name + between + strconv.Itoa(n)
	}
	return out
}

// Add appends a place of a kind and returns it.
func (h *House) Add(kind string) *Place {
	h.Places = append(h.Places, Place{ID: h.FreeID(kind), Kind: kind, Answers: Answers{}})
	return &h.Places[len(h.Places)-1]
}

// Duplicate appends a copy of a place under a new id, and a new name where it has
// one; false when there is none, or no room for one more. Nobody measured the
// copy.
func (h *House) Duplicate(id string) bool {
	p := h.Place(id)
	if p == nil || len(h.Places) >= MaxPlaces {
		return false
	}
	c := Place{ID: h.FreeID(p.Kind), Kind: p.Kind, Answers: p.Answers.Clone()}
	if label := p.Answers["label"].Text; label != "" && len([]rune(label)) < MaxText-len(" 1000") {
		c.Answers["label"] = Text(h.freeLabel(label))
	}
	h.Places = append(h.Places, c)
	return true
}

// freeLabel is a name with the first number behind it that no place has yet. A
// copy of "Wall 2" is "Wall 3".
func (h *House) freeLabel(label string) string {
	if base := strings.TrimRight(label, "0123456789"); strings.HasSuffix(base, " ") && strings.TrimSpace(base) != "" {
		label = strings.TrimSpace(base)
	}
	return firstFree(label, " ", func(name string) bool {
		return slices.ContainsFunc(h.Places, func(p Place) bool { return p.Answers["label"].Text == name })
	})
}

// Delete removes a place; false when there is none of that id.
func (h *House) Delete(id string) bool {
	n := len(h.Places)
	h.Places = slices.DeleteFunc(h.Places, func(p Place) bool { return p.ID == id })
	return len(h.Places) < n
}

// KeepVariant puts the priorities and the budget of now under a name, with what
// the plan chose by them. A saved plan of that name is replaced.
func (a Answered) KeepVariant(name string, was map[string]string) {
	v := Variant{Name: name, Answers: Answers{}, Was: was}
	for _, scope := range []Scope{Priorities, Budget} {
		for _, q := range a.List.In(scope, "") {
			if x := a.ValueOf(q, nil); x.Known {
				v.Answers.Set(q.FullKey(), x.Answer)
			}
		}
	}
	if old := a.House.Variant(name); old != nil {
		*old = v
		return
	}
	a.House.Variants = append(a.House.Variants, v)
}

// Over is a house with the priorities and the budget of a saved plan. One that
// keeps anything about the budget but no sum was kept without one, and the sum
// of the house does not count for it.
func (v Variant) Over(h *House) *House {
	out, budget := h.Clone(), false
	for key, a := range v.Answers {
		out.Answers.Set(key, a)
		budget = budget || strings.HasPrefix(key, "budget.")
	}
	if budget && v.Answers["budget.total_usd"].State == Absent {
		out.Answers.setTop("budget.total_usd", Answer{})
	}
	return out
}

// Variant finds a saved plan by name, or nil.
func (h *House) Variant(name string) *Variant {
	for i := range h.Variants {
		if h.Variants[i].Name == name {
			return &h.Variants[i]
		}
	}
	return nil
}

// MarkMeasured keeps that answers of a place were measured, those that are
// given; it returns how many were not marked before.
func (p *Place) MarkMeasured(keys []string) int {
	added := 0
	for _, key := range keys {
		if p.Answers[key].State == Given && !slices.Contains(p.Measured, key) {
			p.Measured = append(p.Measured, key)
			added++
		}
	}
	return added
}
