package session

import (
	"battwright/rules/house"
	"battwright/testdata/demo"
)

// KeptText is what is kept in the state folder: which way the questions go, the
// house, and the walk through the finished work as far as it went.
func (s *Session) KeptText() string {
	out := KeptWay(s.Rough, s.Sized) + s.Text()
	if s.walk != nil {
		out += s.walk.Kept()
	}
	return out
}

// Begin takes a house not begun as the one worked on, in the file that was named
// at the start, if one was.
func (s *Session) Begin(rough bool) {
	s.Open(house.New(), s.Fresh, "")
	s.Rough = rough
}

// Demo reads the built-in house.
func (s *Session) Demo() (*house.House, error) {
	return house.Read(s.List, demo.Default, demo.Text(demo.Default))
}

// Replaced tells what would be lost if the house of a file, or a new one when
// target is empty, took the place of this one; empty when nothing would.
func (s *Session) Replaced(kept Resumer, target string) string {
	return Replaced(s.Saved, s.WalkUnsaved(), kept, target)
}

// SetAside copies what is about to be replaced to a file of its own; lost is
// what Replaced said.
func (s *Session) SetAside(lost string) (do func() (where string, err error)) {
	text, store := "", s.Store
	if lost != KeptEarlier {
		text = s.KeptText()
	}
	return func() (string, error) { return store.SetAside(text) }
}

// TakeUp goes on with kept answers, which belong to a file of this text.
func (s *Session) TakeUp(kept, path, onDisk string) error {
	h, err := house.Read(s.List, "kept answers", kept)
	if err != nil {
		return err
	}
	s.Open(h, path, onDisk)
	s.walk = nil // what is kept is newer than the file
	s.TakeWalk(kept)
	s.Saved = false
	s.Rough, s.Sized = WayOf(kept)
	return nil
}

// Save writes the person's own file, as the house is now. Where comments or
// somebody else's changes would be lost, or the file cannot be written, why says
// so and nothing is written: the name is to be asked again.
func (s *Session) Save() (do func() (why string)) {
	path, onDisk, text, store := s.Path, s.OnDisk, s.Text(), s.Store
	return func() string {
		switch {
		case store.Changed(path, onDisk):
			return ChangedByOther(path)
		case house.HasComments(onDisk):
			return DropsComments(path)
		}
		if err := store.Write(path, text, true); err != nil {
			return NotSaved(err)
		}
		return ""
	}
}

// SavedIn takes in that a file holds the whole house. Forget says that the kept
// answers can be dropped: not where nothing was to be saved, since they were
// never taken up then, nor where they hold a walk that no file of a house holds.
func (s *Session) SavedIn(path, text string) (forget bool) {
	had := !s.Saved
	if path != s.Path {
		s.Store.Belongs(path)
	}
	if s.WalkBegun() {
		s.Edits++ // it is kept, for this file from now on
	}
	s.Path, s.OnDisk, s.Saved = path, text, true
	return had && !s.WalkBegun()
}

// Write writes a file beside the house, or the house itself when it saves. It
// refuses to replace what the work is read from, and the folder that was typed
// where the path got an ending.
func (s *Session) Write(typed, path, text string, overwrite, saves bool) (do func() error) {
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
			return IsFolder(typed)
		}
		for _, in := range inputs {
			if store.Same(path, in) {
				return IsInput(path)
			}
		}
		return store.Write(path, text, overwrite)
	}
}
