package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"sync"

	"battwright/rules/house"
	"battwright/rules/strict"
)

// store keeps answers and files on disk. Files are written whole or not at
// all: a temporary file beside the target is written, synced and renamed, and
// the folder is synced.
type store struct {
	dir     string // state folder, empty when there is none
	mu      sync.Mutex
	last    int      // newest autosave written
	path    string   // the person's file the kept answers belong to
	held    slot     // where answers are kept, 0 before the first
	lock    *os.File // what keeps other programs out of it
	mine    bool     // this program wrote what is in it
	offered *string  // which file what is in it belongs to, as it was found
	lost    bool     // the newest answers could not be kept
}

const keptName = "kept-answers.toml"

// newStore finds the state folder: XDG_STATE_HOME, else ~/.local/state. A
// relative value is invalid and ignored, as the specification says.
func newStore(getenv func(string) string) *store {
	dir := getenv("XDG_STATE_HOME")
	if !filepath.IsAbs(dir) {
		home := getenv("HOME")
		if !filepath.IsAbs(home) {
			return &store{}
		}
		dir = filepath.Join(home, ".local", "state")
	}
	return &store{dir: filepath.Join(dir, "battwright")}
}

// errLocked says that another program holds the lock.
var errLocked = errors.New("another battwright is running")

// Where names the file the answers of this program are in: those kept, else the
// person's own, and beside it those that were kept for it earlier and were not
// taken up. It is empty when neither is there, or the newest answers are in
// neither.
func (s *store) Where() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.lost {
		return ""
	}
	if s.held != 0 && s.mine && !s.empty(s.held) {
		return s.file(s.held)
	}
	if _, err := os.Stat(s.path); s.path == "" || err != nil {
		return ""
	}
	if s.held != 0 {
		if _, path, ok := s.read(s.held); ok && path == s.path {
			return s.path + ", and those of an earlier time that are not in it in " + s.file(s.held)
		}
	}
	return s.path
}

// File names the person's own file, empty when it has none yet.
func (s *store) File() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.path
}

// Autosave keeps the answers. A number not above the newest is an older state
// and is dropped.
func (s *store) Autosave(n int, text string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	err := s.keep(n, text)
	s.lost = err != nil
	return err
}

func (s *store) keep(n int, text string) error {
	if s.dir == "" {
		return errors.New("there is no home folder to keep answers in")
	}
	if n <= s.last {
		return nil
	}
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return plainPathError(err)
	}
	if err := s.claim(); err != nil {
		return plainPathError(err)
	}
	if !s.mine { // what was offered and not taken up is not lost
		if earlier, path, there := s.read(s.held); there {
			if _, err := s.copyAside(earlier, path); err != nil {
				return err
			}
		}
	}
	if err := writeWhole(s.file(s.held), house.PathMark+strconv.Quote(s.path)+"\n"+text, 0o600); err != nil {
		return plainPathError(err)
	}
	s.last, s.mine = n, true
	return nil
}

// Belongs sets the file that kept answers belong to.
func (s *store) Belongs(path string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if path != "" {
		if abs, err := filepath.Abs(path); err == nil {
			path = abs
		}
	}
	s.path = path
	if s.held != 0 && !s.mine {
		// Kept answers for this very house were offered and taken up.
		s.mine = s.offered != nil && *s.offered == path
	}
}

// Folder reports whether a name is of a folder.
func (s *store) Folder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// Same reports whether two names are of one file.
func (s *store) Same(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// Resume gives the kept answers that no other running program is working on.
func (s *store) Resume() (text, path string, ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.dir == "" {
		return "", "", false
	}
	return s.find()
}

// Forget drops the kept answers of the house worked on.
func (s *store) Forget() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.lost = false // the person's own file has them
	if s.dir == "" || s.held == 0 || !s.mayReplace() {
		return nil
	}
	if err := os.Remove(s.file(s.held)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return plainPathError(err)
	}
	s.mine = false
	return nil
}

// Read reads a house file.
func (s *store) Read(path string) (string, error) {
	text, err := readOrdinary(path)
	if err != nil {
		return "", fmt.Errorf("%s: %w", path, plainPathError(err))
	}
	return text, nil
}

// Changed reports whether a file is no longer what was read or written.
func (s *store) Changed(path, text string) bool {
	now, err := readOrdinary(path)
	if errors.Is(err, fs.ErrNotExist) {
		return false
	}
	return err != nil || now != text
}

// Write writes a file whole or not at all.
func (s *store) Write(path, text string, overwrite bool) error {
	if clean, changed := strict.CleanText(path); changed || clean == "" {
		return errors.New("that is not a usable file name")
	}
	if _, err := os.Lstat(path); err == nil && !overwrite {
		return thereAlready(path)
	}
	if err := writeWhole(path, text, 0o644); err != nil {
		return fmt.Errorf("%s: %w", path, plainPathError(err))
	}
	return nil
}

// thereAlready says in plain words that a file would be overwritten.
type thereAlready string

func (path thereAlready) Error() string { return string(path) + " is there already" }

// Is lets a screen tell this from what a second try cannot help.
func (thereAlready) Is(target error) bool { return target == fs.ErrExist }
