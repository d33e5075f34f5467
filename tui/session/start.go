package session

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/pages"
)

// What can be done to begin, and what is everywhere.
const (
	Start     page.ActionID = "start"
	Kept      page.ActionID = "kept"
	Steps     page.ActionID = "steps"
	GoOn      page.ActionID = "go on"
	Resume    page.ActionID = "resume"
	LeaveKept page.ActionID = "leave kept"
	NewHouse  page.ActionID = "new house"
	Demo      page.ActionID = "demo"
	OpenHouse page.ActionID = "open house"
	Words     page.ActionID = "words"
	Quit      page.ActionID = "quit"
	StepTo    page.ActionID = "step"
	SaveAs    page.ActionID = "save as"
	Export    page.ActionID = "export"
	WritePlan page.ActionID = "write plan"
	Report    page.ActionID = "report"
	FindOut   page.ActionID = "find out"
)

func init() {
	add(map[page.ActionID]maker{
		Start: startView, Kept: keptView, Steps: stepsView, Export: exportView, Report: reportView, FindOut: findOutView,
	}, map[page.ActionID]doer{
		GoOn:      func(s *Session, _ string) Next { return s.goOn() },
		Resume:    resume,
		LeaveKept: leaveKept,
		NewHouse:  newHouse,
		Demo:      openDemo,
		OpenHouse: func(s *Session, _ string) Next {
			return read("Open a house file", PathOfFile("my-house.toml"), s.openText)
		},
		Quit:      func(*Session, string) Next { return Next{Quit: true} },
		StepTo:    func(_ *Session, arg string) Next { return Go(stepNamed(arg)) },
		SaveAs:    func(s *Session, why string) Next { return s.saveAs(why) },
		WritePlan: writePlan,
	})
}

func startView(s *Session, _ string) (View, bool) {
	rough, whole := s.List.Counts(true), s.List.Counts(false)
	var rows []page.Action
	switch {
	case s.Edits > 0 || s.Path != "" && s.Fresh == "" || len(s.House.Places) > 0:
		rows = append(rows, page.Action{ID: GoOn, Label: "Go on with " + s.Name(), Note: s.StageLine()})
	case s.Earlier.There:
		rows = append(rows, page.Action{ID: Resume, Label: "Go on where you stopped", Note: keptAtStart(s.Earlier.Path)})
	}
	rows = append(rows,
		page.Action{ID: NewHouse, Arg: "rough", Label: "A new house, rough look", Note: fmt.Sprintf("About %d questions on the house and %d on what matters; most may stay as they are. What goes where, and roughly what it costs.", rough.House, rough.Matters)},
		page.Action{ID: NewHouse, Arg: "whole", Label: "A new house, ready to order", Note: fmt.Sprintf("About %d questions on the house, %d on size and frame of its %d places and %d on what matters. With a tape measure: sizes you can buy by.", whole.House, whole.Sizes, whole.Places, whole.Matters)},
		page.Action{ID: Demo, Label: "Look at a demo house", Note: "An invented house with every kind of place. Change anything; it is not yours."},
		page.Action{ID: OpenHouse, Label: "Open a house file"},
		page.Action{ID: Words, Label: WordsTitle},
		page.Action{ID: Quit, Label: "Quit"})
	return View{Actions: rows, Page: titled(Purpose, "Attic, walls, crawl space, basement, near a chimney. You answer what you know; what you don't is assumed and said. Nothing is sent anywhere.")}, true
}

// StageLine is how far a house is.
func (s *Session) StageLine() string {
	return fmt.Sprintf("It is %s. %d places; %s.", pages.StageText(s.Plan.Stage), len(s.Plan.Places), pages.OpenAnswers(s.Plan))
}

func keptView(s *Session, path string) (View, bool) {
	whose, leave := cmp.Or(path, "a house that is in no file"), "Go on with the file as it is"
	if s.Fresh != "" {
		leave = "Begin a new house"
	}
	intro, rows := "They are for "+whose, []page.Action{
		{ID: Resume, Arg: path, Label: "Go on with the kept answers"},
		{ID: LeaveKept, Arg: path, Label: leave, Note: KeptNote(path, s.Path)},
	}
	if s.Earlier.Newer != "" { // then the file goes first
		intro = s.Earlier.Newer
		rows[0].Note = "What was changed in the file is not in them. Saving asks before it overwrites that."
		slices.Reverse(rows)
	}
	return View{Page: titled("Answers were kept that are not saved", intro+". The program ended before they were saved."), Actions: rows}, true
}

func stepsView(*Session, string) (View, bool) {
	var rows []page.Action
	for _, name := range StepNames[AtHouse:] {
		rows = append(rows, page.Action{ID: StepTo, Arg: name, Label: name})
	}
	return View{Page: titled("Go to", ""), Actions: append(rows,
		page.Action{ID: FindOut, Label: "find-out list"},
		page.Action{ID: Export, Label: "export"},
		page.Action{ID: StepTo, Label: "start screen"})}, true
}

func stepNamed(name string) Step {
	for i, n := range StepNames {
		if n == name {
			return Step(i)
		}
	}
	return AtStart
}

func exportView(*Session, string) (View, bool) {
	rows := []page.Action{{ID: Report, Word: "read", Label: "Read it here"}}
	for _, f := range PlanFormats {
		rows = append(rows, page.Action{ID: WritePlan, Arg: f.Ext, Label: "Write " + f.Name})
	}
	return View{Step: AtOrder, Page: titled("Export the recommendation", "Write it to a file, or read it here first."), Actions: rows}, true
}

func writePlan(s *Session, ext string) Next {
	n := written("Export", "my-house."+ext, "."+ext, func() (string, error) { p := s.settledPlan(); return pages.PlanFile(p, s.Order(), ext, s.Options()) })
	n.Prompt.Written = func(path string) Next { return Next{Say: Written(path), Close: 1} }
	return n
}

func reportView(s *Session, _ string) (View, bool) {
	return s.reading(AtOrder, func(int) page.Page { return pages.PlanPage(s.Plan, s.Options()) })
}

// findOutView is the list of what to find out, most plan-changing first.
func findOutView(s *Session, _ string) (View, bool) {
	return View{Step: AtCheck, Slow: s.try, Page: func(int) page.Page {
		tried := s.Tried()
		if tried == nil {
			return page.Page{Title: "Find-out list", Intro: "Working it out ..."}
		}
		p := s.Plan
		p.NearClimate = tried.Near
		return pages.FindOutPage(p, tried.Found, s.Options())
	}}, true
}

// FirstStep is where to go on: the house until it has places, then the result.
func (s *Session) FirstStep() Step {
	if len(s.House.Places) == 0 {
		return AtHouse
	}
	return AtLook
}

func (s *Session) goOn() Next { return Next{Go: true, To: s.FirstStep(), Left: true} }

func newHouse(s *Session, arg string) Next {
	return s.replace("new "+arg, s.Fresh, func() Next {
		s.Open(house.New(), s.Fresh, "")
		s.Rough = arg == "rough"
		return Go(AtHouse)
	})
}

func openDemo(s *Session, _ string) Next {
	h, err := s.Demo()
	if err != nil {
		return Next{Say: "The demo house could not be read."}
	}
	return s.replace("demo", "", func() Next {
		s.Open(h, "", "")
		return Go(AtLook)
	})
}

// replace asks before the house of a file, or a new one when target is empty,
// takes the place of answers that are in no file of the person, and keeps a copy
// of them first. Without a copy nothing is replaced.
func (s *Session) replace(choice, target string, then func() Next) Next {
	lost := replaced(s.Saved, s.WalkUnsaved(), s.Earlier, target)
	if lost == "" {
		return then()
	}
	return Next{Confirm: &Confirm{Lost: lost, Choice: choice, Then: func() Next {
		return s.setAside(lost, func(where string) Next {
			s.Earlier = Earlier{}
			n := then()
			n.Say = strings.TrimSpace(where + " " + n.Say)
			return n
		})
	}}}
}

// setAside copies what is about to be replaced to a file of its own before then;
// lost is what replaced said.
func (s *Session) setAside(lost string, then func(where string) Next) Next {
	text, store := "", s.Store
	if store == nil {
		return then("")
	}
	if lost != KeptEarlier {
		text = s.KeptText()
	}
	return Next{Work: &Work{Doing: "Keeping a copy", Do: func() func() Next {
		where, err := store.SetAside(text)
		return func() Next {
			if err != nil {
				return Next{Say: NoCopy + err.Error() + "."}
			}
			return then(CopyIn(where))
		}
	}}}
}

// openText takes the house of a file; a broken one leaves the open house alone.
func (s *Session) openText(path, text string) Next {
	h, err := house.Read(s.List, path, text)
	if err != nil {
		return Next{Page: problems(path+" has mistakes", "The house that was open is still open and unchanged. Correct these lines in any editor, then open the file again:", err)}
	}
	return s.replace("file "+path, path, func() Next {
		s.Open(h, path, text)
		store := s.Store
		return Next{Work: &Work{Doing: "Looking for kept answers", Do: func() func() Next {
			have, kept, there := store.Resume()
			return func() Next {
				n := s.goOn()
				if there && SameFile(kept, path) {
					s.Earlier = Earlier{there, kept, newer(kept, beganOf(have), text)}
					s.TakeWalk(have)
					if WithoutWay(have) != text {
						n.Open = At{Kept, kept}
					}
				}
				return n
			}
		}}}
	})
}

// LookForKept tells of answers kept earlier.
func (s *Session) LookForKept() *Work {
	store := s.Store
	if store == nil {
		s.Earlier = Earlier{}
		return nil
	}
	return &Work{Doing: "Looking for kept answers", Do: func() func() Next {
		_, path, there := store.Resume()
		return func() Next {
			s.Earlier = Earlier{There: there, Path: path}
			return Next{}
		}
	}}
}

// resume takes the kept answers back, with the file they belong to, and leads a
// house on its way to an order to the first place whose size and frame were not
// asked to the end. Where the file was changed after they were kept, and told is
// empty, it opens the file, which tells of both and asks.
func resume(s *Session, told string) Next {
	store := s.Store
	return Next{Work: &Work{Doing: "Reading the kept answers", Do: func() func() Next {
		text, path, ok := store.Resume()
		onDisk := ""
		if path != "" {
			onDisk, _ = store.Read(path)
		}
		return func() Next {
			if !ok {
				return Next{Say: "Nothing was kept."}
			}
			if told == "" && path != "" && newer(path, beganOf(text), onDisk) != "" {
				return s.openText(path, onDisk)
			}
			if err := s.TakeUp(text, path, onDisk); err != nil {
				return Next{Page: problems("The kept answers could not be read", "", err)}
			}
			if at := s.Unsized(); at >= 0 {
				return Next{Go: true, To: AtPlaces, Left: true, Open: At{SizeForm, s.House.Places[at].ID}}
			}
			return s.goOn()
		}
	}}}
}

// leaveKept goes on with a file as it is. What was kept for that very file gets a
// place of its own, because what is typed next is kept where it was.
func leaveKept(s *Session, path string) Next {
	on := s.goOn()
	if s.Fresh != "" { // there is no such file: how to begin it is asked
		on = Go(AtStart)
		on.Say = NewFile(s.Fresh)
	}
	if !SameFile(path, s.Path) {
		return on
	}
	return s.setAside(KeptEarlier, func(where string) Next {
		on.Say = strings.TrimSpace(where + " " + on.Say)
		return on
	})
}

// Save saves the house in the person's own file. Where that would lose
// something, it asks for the name, and says why.
func (s *Session) Save() Next {
	if s.Store == nil {
		return Next{Say: Sentence(NoWriting)}
	}
	if s.Path == "" {
		return s.saveAs("")
	}
	path, text, do := s.Path, s.Text(), s.saving()
	return Next{Work: &Work{Doing: "Saving " + path, Do: func() func() Next {
		why := do()
		return func() Next {
			if why != "" {
				return s.saveAs(why)
			}
			return s.savedIn(path, text)
		}
	}}}
}

func (s *Session) saveAs(why string) Next {
	text := s.Text()
	return Next{Prompt: &Prompt{
		Title: "Save the house", Hint: NameOfFile("my-house.toml") + ". " + PlainText + ".", Why: why, Value: s.Path, Ending: ".toml", Saves: true,
		Write: func() (string, error) { text = s.Text(); return text, nil }, Written: func(path string) Next { return s.savedIn(path, text) },
	}}
}

// AWord is how a word of the trade is asked for.
const AWord = "a word, even misspelled, or the name of a rule: it stands in brackets beside a reason."

// WordPage explains a word of the trade, or a rule; without one it lists the words.
func (s *Session) WordPage(term string) page.Page {
	if term == "" {
		return page.Page{Blocks: []page.Block{{Rows: []page.Row{{Tone: page.Quiet, Text: strings.Join(s.Catalog().Terms(), ", ")}}}}}
	}
	found, near := pages.TermBlocks(s.Catalog(), term, s.System)
	d := page.Page{Blocks: found}
	switch {
	case len(found) > 0:
	case near != "":
		d.Block("").Say("No such word here. Did you mean %s?", near)
	default:
		d.Block("").Say("No such word here.")
	}
	return d
}
