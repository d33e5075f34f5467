package inspect

import (
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/strict"
)

// Walk is the walk through the finished work as it goes: its questions, and
// what was answered so far in a house that holds nothing else.
type Walk struct {
	List  *house.QuestionList
	House *house.House
	inOne bool // a file of the person holds all of it
}

// NewWalk is a walk before anybody looked.
func NewWalk(c *catalog.Catalog) *Walk { return &Walk{List: FoundList(c), House: house.New()} }

// Follow takes in every place that is looked at now. What was measured before
// stays, whatever the plan says by now.
func (w *Walk) Follow(j Job) {
	for _, p := range EmptyFound(j).Places {
		if at := w.House.Place(p.ID); at == nil {
			w.House.Places = append(w.House.Places, p)
		} else {
			at.Kind = p.Kind
		}
	}
}

// Judge holds what was found so far against the plan of the job, in every place
// that is looked at now.
func (w *Walk) Judge(j Job) FoundResult {
	w.Follow(j)
	return JudgeFound(j, w.House, nil)
}

// JudgeAt holds one place against its plan; ok is false for a place that the
// walk does not come to.
func (w *Walk) JudgeAt(j Job, id string) (found FoundPlace, ok bool) {
	p, there := j.Place(id)
	at := w.House.Place(id)
	if !there || at == nil {
		return FoundPlace{}, false
	}
	return JudgePlace(j, p, at.Answers), true
}

// QuestionsAt are the questions that a place raises now, none for a place that
// is gone.
func (w *Walk) QuestionsAt(j Job, id string) []house.Question {
	p, there := j.Place(id)
	at := w.House.Place(id)
	if !there || at == nil {
		return nil
	}
	return QuestionsOf(w.List, p, at.Answers)
}

// Begun reports whether anything was looked at yet.
func (w *Walk) Begun() bool {
	return len(w.House.Answers) > 0 || slices.ContainsFunc(w.House.Places, func(p house.Place) bool { return len(p.Answers) > 0 })
}

// Unsaved reports whether the walk holds what no file of the person holds.
func (w *Walk) Unsaved() bool { return w.Begun() && !w.inOne }

// Changed notes an answer that no file holds yet, Written that one holds all.
func (w *Walk) Changed() { w.inOne = false }

// Written notes that a file of the person holds all of it now.
func (w *Walk) Written() { w.inOne = true }

// Text is the walk as a file of finished work.
func (w *Walk) Text() string { return WriteFound(w.List, w.House) }

// Open takes a file of finished work in place of what was noted. One with
// mistakes is read as far as possible; one of which nothing could be read takes
// nothing away, and taken is false. The problems tell what could not be read,
// then what was read in other units.
func (w *Walk) Open(j Job, file, text string) (taken bool, problems strict.Problems) {
	h, notes, problems := ReadFound(w.List, j, file, text)
	got := &Walk{House: h}
	if len(problems) > 0 && !got.Begun() {
		return false, problems
	}
	w.House, w.inOne = h, len(problems) == 0
	return true, append(problems, notes...)
}

// Kept is the walk as the kept answers hold it, empty before it is begun. Its
// lines are comments there, so that the house can be read without them.
func (w *Walk) Kept() string {
	if !w.Begun() {
		return ""
	}
	var b strings.Builder
	b.WriteByte('\n')
	for _, l := range strings.Split(strings.TrimRight(w.Text(), "\n"), "\n") {
		b.WriteString(house.WorkMark + l + "\n")
	}
	return b.String()
}

// TakeUp takes the walk out of kept answers, where they hold one.
func (w *Walk) TakeUp(j Job, kept string) {
	if text := house.FinishedWork(kept); text != "" {
		w.House, _, _ = ReadFound(w.List, j, "kept answers", text)
		w.inOne = false
	}
}
