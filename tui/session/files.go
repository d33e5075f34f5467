package session

import (
	"errors"
	"io/fs"
	"strings"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/tui/draw"
)

// KeptText is what is kept in the state folder: from which text of the file the
// answers began, which way the questions go, the house, and the walk through the
// finished work as far as it went.
func (s *Session) KeptText() string {
	out := KeptWay(s.Rough, s.Sized) + s.Text()
	if s.Path != "" {
		out = s.began + out
	}
	if s.walk != nil {
		out += s.walk.Kept()
	}
	return out
}

// Demo reads the built-in house.
func (s *Session) Demo() (*house.House, error) {
	return house.Read(s.List, demo.Default, demo.Text(demo.Default))
}

// TakeUp goes on with kept answers, which belong to a file of this text.
func (s *Session) TakeUp(kept, path, onDisk string) error {
	h, err := house.Read(s.List, "kept answers", kept)
	if err != nil {
		return err
	}
	s.Open(h, path, onDisk)
	s.began = beganOf(kept)
	s.walk = nil // what is kept is newer than the file
	s.TakeWalk(kept)
	s.Saved = false
	s.Rough, s.Sized = WayOf(kept)
	return nil
}

// saving writes the person's own file, as the house is now. Where comments or
// somebody else's changes would be lost, or the file cannot be written, why says
// so and nothing is written.
func (s *Session) saving() (do func() (why string)) {
	path, onDisk, began, text, store := s.Path, s.OnDisk, s.began, s.Text(), s.Store
	return func() string {
		switch {
		case store.Changed(path, onDisk):
			return path + " was changed by another program since it was read: save under another name, or the same to overwrite."
		case newer(path, began, onDisk) != "":
			return newer(path, began, onDisk) + ": save under another name, or the same to overwrite."
		case house.HasComments(onDisk):
			return path + " holds comments, which saving would drop: save under another name, or the same to overwrite."
		}
		if err := store.Write(path, text, true); err != nil {
			return "Not saved. " + strings.TrimRight(err.Error(), ".") + ": save under another name."
		}
		return ""
	}
}

// savedIn takes in that a file holds the whole house. The kept answers are
// dropped then, but where nothing was to be saved, since they were never taken up
// then, and where they hold a walk that no file of a house holds.
func (s *Session) savedIn(path, text string) Next {
	forget, store := !s.Saved && !s.WalkBegun(), s.Store
	if path != s.Path {
		store.Belongs(path)
	}
	if s.WalkBegun() {
		s.Edits++ // it is kept, for this file from now on
	}
	s.Path, s.OnDisk, s.began, s.Saved, s.Changed = path, text, Began(text), true, ""
	done := Next{Say: "Saved in " + path, Saved: true}
	if !forget {
		return done
	}
	return Next{Work: &Work{Doing: "Dropping the kept answers", Do: func() func() Next {
		err := store.Forget()
		return func() Next {
			if err != nil {
				done.Say = err.Error()
			}
			return done
		}
	}}}
}

// Take takes what was typed at a prompt. Only a file that is there already can be
// overwritten, by the same name a second time or by yes: again is the name that
// was asked about.
func (s *Session) Take(p Prompt, text string, again *string) Next {
	if said := strings.ToLower(text); *again != "" && (said == "yes" || said == "y") {
		text = *again
	}
	switch {
	case text == "" && !p.Optional:
		return Next{Problem: p.Empty()}
	case p.Take != nil:
		n, problem := p.Take(text)
		n.Problem = problem
		return n
	case s.Store == nil && p.Read != nil:
		return Next{Problem: Sentence(NoReading)}
	case s.Store == nil:
		return Next{Problem: Sentence(NoWriting)}
	case p.Read != nil:
		store := s.Store
		return Next{Work: &Work{Doing: "Reading " + text, Do: func() func() Next {
			have, err := store.Read(text)
			return func() Next {
				if err != nil {
					return Next{Problem: err.Error()}
				}
				return p.Read(text, have)
			}
		}}}
	}
	return s.writing(p, text, again)
}

func (s *Session) writing(p Prompt, typed string, again *string) Next {
	path := typed
	if !strings.HasSuffix(path, p.Ending) {
		path += p.Ending
	}
	text, err := p.Write()
	if err != nil {
		return Next{Problem: Refusal(err)}
	}
	do := s.write(typed, path, text, *again == path, p.Saves)
	*again = ""
	return Next{Work: &Work{Doing: "Writing " + path, Do: func() func() Next {
		err := do()
		return func() Next {
			switch {
			case errors.Is(err, fs.ErrExist):
				*again = path
				return Next{Problem: err.Error() + ". The same again overwrites it, and so does yes."}
			case err != nil:
				return Next{Problem: err.Error() + "."}
			}
			return p.Written(path)
		}
	}}}
}

// write writes a file beside the house, or the house itself when it saves. It
// refuses to replace what the work is read from, and the folder that was typed
// where the path got an ending.
func (s *Session) write(typed, path, text string, overwrite, saves bool) (do func() error) {
	store := s.Store
	var inputs []string
	if s.Path != "" && !saves {
		inputs = append(inputs, s.Path)
	}
	for _, o := range s.Offers {
		inputs = append(inputs, o.Path)
	}
	return func() error {
		if typed != path && store.Folder(typed) {
			return errors.New(typed + " is a folder: name a file in it")
		}
		for _, in := range inputs {
			if store.Same(path, in) {
				return errors.New(path + " is a file your house or its offers are read from: give this another name")
			}
		}
		return store.Write(path, text, overwrite)
	}
}

// tool draws with the signs that the mode has.
func (s *Session) tool(width int) draw.Tool {
	return draw.Tool{Catalog: s.Catalog(), System: s.System, ASCII: s.ASCII, Width: width}
}

func (s *Session) picturePage(p plan.Place, o pages.Options, width int) page.Page {
	d, stopped := pages.PicturePage(p, o)
	if stopped {
		return d
	}
	return s.tool(width).Picture(d, p)
}

func (s *Session) dampPage(p plan.Place, o pages.Options, width int) page.Page {
	d, nothing := pages.DampPage(p, o)
	if nothing {
		return d
	}
	return s.tool(width).Year(d, p)
}

// Layers is the drawing of a place alone, to stand beside what says the same.
func (s *Session) Layers(p plan.Place, width int) ([]string, bool) {
	x, ok := s.tool(width).Layers(p)
	return x.Lines, ok
}
