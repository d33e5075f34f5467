package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"battwright/rules/house"
)

// Two programs may run at once. Each keeps its answers in a slot of its own,
// held by a lock that the system lets go when the process ends however it
// ends. So neither overwrites what the other keeps, and what a stopped one
// kept is offered at the next start. Kept answers are only ever replaced by
// the program that wrote them, or by answers for the same house once they were
// offered.

// mostSlots is how many sets of answers may be kept at once.
const mostSlots = 9

// errAllKept says that no slot is free.
var errAllKept = fmt.Errorf("%d other sets of answers are kept already: save this house in a file of yours", mostSlots)

// slot is a numbered place for kept answers, 1 to mostSlots; 0 is none.
type slot int

func (s *store) file(n slot) string {
	name := keptName
	if n > 1 {
		ext := filepath.Ext(name)
		name = strings.TrimSuffix(name, ext) + "-" + strconv.Itoa(int(n)) + ext
	}
	return filepath.Join(s.dir, name)
}

func (s *store) lockFile(n slot) string {
	return filepath.Join(s.dir, "."+filepath.Base(s.file(n))+".lock")
}

func (s *store) empty(n slot) bool {
	_, err := os.Lstat(s.file(n))
	return errors.Is(err, fs.ErrNotExist)
}

// hold makes a slot this program's own. False: another program has it.
func (s *store) hold(n slot) (bool, error) {
	if s.held == n {
		return true, nil
	}
	lock, err := lockFile(s.lockFile(n))
	if errors.Is(err, errLocked) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	s.release()
	s.held, s.lock = n, lock
	return true, nil
}

// release gives the slot back.
func (s *store) release() {
	if s.lock != nil {
		s.lock.Close()
	}
	s.held, s.lock, s.mine, s.offered = 0, nil, false, nil
}

// Close lets other programs take up what this one kept. Where a write hangs it
// does not wait: the end of the process lets go as well.
func (s *store) Close() {
	if !s.mu.TryLock() {
		return
	}
	defer s.mu.Unlock()
	s.release()
}

// claim holds a slot that may be written to.
func (s *store) claim() error {
	if s.held != 0 && s.mayReplace() {
		return nil
	}
	for n := slot(1); n <= mostSlots; n++ {
		if _, err := os.Lstat(s.file(n)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err // the folder is somebody else's, for instance
		}
		if !s.empty(n) {
			continue
		}
		if ok, err := s.hold(n); ok || err != nil {
			return err
		}
	}
	return errAllKept
}

// mayReplace reports whether what the slot held has may be overwritten.
func (s *store) mayReplace() bool {
	if s.mine || s.empty(s.held) {
		return true
	}
	_, path, ok := s.read(s.held)
	return ok && path == s.path
}

// asideName names answers that made room for another house. They are a house
// file like any other, which is never written again.
const (
	asideName = "replaced-answers"
	mostAside = 99
)

// SetAside copies answers that are about to be replaced to a file of their own,
// and says which. Without a text it is what was kept and offered.
func (s *store) SetAside(text string) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.dir == "" {
		return "", errors.New("there is no home folder to keep answers in")
	}
	path := s.path
	if text == "" {
		var ok bool
		if text, path, ok = s.find(); !ok {
			return "", errors.New("what was kept is gone")
		}
	}
	return s.copyAside(text, path)
}

func (s *store) copyAside(text, path string) (string, error) {
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return "", plainPathError(err)
	}
	text = house.PathMark + strconv.Quote(path) + "\n" + text
	to := s.aside(text)
	if now, err := readOrdinary(to); err == nil && now == text {
		return to, nil
	}
	if err := writeWhole(to, text, 0o600); err != nil {
		return "", plainPathError(err)
	}
	return to, nil
}

// aside is where answers are set aside: where they are already, else a free
// name, and when all are taken the oldest.
func (s *store) aside(text string) string {
	oldest, at := "", time.Time{}
	for n := 1; n <= mostAside; n++ {
		name := filepath.Join(s.dir, asideName+"-"+strconv.Itoa(n)+".toml")
		info, err := os.Lstat(name)
		if now, _ := readOrdinary(name); err != nil || now == text {
			return name
		}
		if oldest == "" || info.ModTime().Before(at) {
			oldest, at = name, info.ModTime()
		}
	}
	return oldest
}

// find looks for answers to offer: those of the file worked on first, then
// those in the slot held, then any that no running program holds, the newest
// first. The slot it finds is held from then on. Where nothing can be locked it only reads.
func (s *store) find() (text, path string, ok bool) {
	type candidate struct {
		n     slot
		order int
		kept  time.Time
	}
	var found []candidate
	for n := slot(1); n <= mostSlots; n++ {
		_, path, ok := s.read(n)
		if !ok {
			continue
		}
		c := candidate{n: n}
		if info, err := os.Lstat(s.file(n)); err == nil {
			c.kept = info.ModTime()
		}
		if s.path != "" && path == s.path {
			c.order -= 2
		}
		if n == s.held {
			c.order--
		}
		found = append(found, c)
	}
	slices.SortStableFunc(found, func(a, b candidate) int { return cmp.Or(a.order-b.order, b.kept.Compare(a.kept)) })
	for _, c := range found {
		if held, err := s.hold(c.n); held || err != nil {
			text, path, ok := s.read(c.n)
			s.offered = &path
			return text, path, ok
		}
	}
	return "", "", false
}

// read gives what a slot has.
func (s *store) read(n slot) (text, path string, ok bool) {
	text, err := readOrdinary(s.file(n))
	if err != nil {
		return "", "", false
	}
	if head, rest, found := strings.Cut(text, "\n"); found && strings.HasPrefix(head, house.PathMark) {
		if p, err := strconv.Unquote(strings.TrimPrefix(head, house.PathMark)); err == nil {
			path = p
		}
		text = rest
	}
	return text, path, true
}
