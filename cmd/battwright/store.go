package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"battwright/rules/strict"
)

// store keeps answers and files on disk. Files are written whole or not at
// all: a temporary file beside the target is written, synced and renamed, and
// the folder is synced.
type store struct {
	dir  string // state folder, empty when there is none
	mu   sync.Mutex
	last int    // newest autosave written
	path string // the person's file the kept answers belong to
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

func (s *store) kept() string { return filepath.Join(s.dir, keptName) }

// Where says where the kept answers are.
func (s *store) Where() string {
	if s.dir == "" {
		return "nowhere: there is no home folder"
	}
	return s.kept()
}

// pathMark is a comment on the first line of the kept answers: which file of
// the person they belong to.
const pathMark = "# answers kept by battwright for: "

// Autosave keeps the answers. A number not above the newest is an older state
// and is dropped.
func (s *store) Autosave(n int, text string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.dir == "" {
		return errors.New("there is no home folder to keep answers in")
	}
	if n <= s.last {
		return nil
	}
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return plainPathError(err)
	}
	if err := writeWhole(s.kept(), pathMark+strconv.Quote(s.path)+"\n"+text, 0o600); err != nil {
		return plainPathError(err)
	}
	s.last = n
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
}

// Resume gives the kept answers.
func (s *store) Resume() (text, path string, ok bool) {
	if s.dir == "" {
		return "", "", false
	}
	text, err := readText(s.kept(), nil)
	if err != nil {
		return "", "", false
	}
	if head, rest, found := strings.Cut(text, "\n"); found && strings.HasPrefix(head, pathMark) {
		if p, err := strconv.Unquote(strings.TrimPrefix(head, pathMark)); err == nil {
			path = p
		}
		text = rest
	}
	return text, path, true
}

// Forget drops the kept answers.
func (s *store) Forget() error {
	if s.dir == "" {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := os.Remove(s.kept()); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return plainPathError(err)
	}
	return nil
}

// Read reads a house file.
func (s *store) Read(path string) (string, error) {
	text, err := readText(path, nil)
	if err != nil {
		return "", fmt.Errorf("%s: %w", path, plainPathError(err))
	}
	return text, nil
}

// Changed reports whether a file is no longer what was read or written.
func (s *store) Changed(path, text string) bool {
	now, err := readText(path, nil)
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
		return fmt.Errorf("%s is there already.", path)
	}
	if err := writeWhole(path, text, 0o644); err != nil {
		return fmt.Errorf("%s: %w", path, plainPathError(err))
	}
	return nil
}

// writeWhole replaces a file in one step. A symbolic link is followed, so
// that the file it points to is replaced and not the link.
func writeWhole(path, text string, mode fs.FileMode) (err error) {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	if info, err := os.Stat(path); err == nil {
		if info.IsDir() {
			return errors.New("this is a folder")
		}
		mode = info.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".battwright-*")
	if err != nil {
		return err
	}
	tmp := f.Name()
	defer func() {
		if err != nil {
			os.Remove(tmp)
		}
	}()
	_, err = f.WriteString(text)
	err = errors.Join(err, f.Chmod(mode), f.Sync(), f.Close())
	if err != nil {
		return err
	}
	if err = os.Rename(tmp, path); err != nil {
		return err
	}
	return syncDir(filepath.Dir(path))
}

// syncDir makes the rename itself last through a power cut. Systems that
// cannot sync a folder say so, and the file is there all the same.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return nil
	}
	_ = d.Sync()
	return d.Close()
}
