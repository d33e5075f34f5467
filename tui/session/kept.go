package session

import (
	"crypto/sha256"
	"fmt"
	"path/filepath"
	"strings"

	"battwright/rules/house"
)

// keptAtStart tells of them in the start menu.
func keptAtStart(path string) string {
	if path != "" {
		return "Your last answers for " + path + " were kept, though not saved in it."
	}
	return "Your last answers were kept, though not saved in a file of yours."
}

// Earlier is what is known of answers kept earlier, without a look at the disk.
type Earlier struct {
	There bool
	Path  string // the file they belong to
	Newer string // that the file was changed after they were kept; empty when it was not
}

// Began is the line of kept answers that tells from which text of their file
// they began, so that a change of it by somebody else is seen however much later.
func Began(text string) string {
	return fmt.Sprintf("%s%x\n", house.BeganMark, sha256.Sum256([]byte(text)))
}

// beganOf takes that line out of kept answers, empty when they have none.
func beganOf(kept string) string {
	for l := range strings.Lines(kept) {
		if strings.HasPrefix(l, house.BeganMark) {
			return l
		}
	}
	return ""
}

// newer says that the file of kept answers holds something else than they began
// from; empty when it does not, or is not there.
func newer(path, began, onDisk string) string {
	switch {
	case onDisk == "" || began == Began(onDisk):
		return ""
	case began == "":
		return path + " may have been changed after these answers were kept"
	}
	return path + " was changed after these answers were kept"
}

// NewFile says that a house begins under a name that no file has yet.
func NewFile(path string) string {
	return path + " is not there yet: this is a new house, and saving puts it there."
}

// KeptNote tells what becomes of answers kept for one file when another, or the
// same, is gone on with: those of the same file are copied, because what is typed
// next is kept where they were; all others stay where they are.
func KeptNote(kept, opened string) string {
	switch {
	case SameFile(kept, opened):
		return "The kept answers are copied to a file of their own, which is named then."
	case kept == "":
		return "The kept answers stay, and are offered again at a start without a file."
	}
	return "The kept answers stay, and are offered again when " + kept + " is opened."
}

// SameFile reports whether answers kept for one file belong to the other; no
// file is the same as no file. Kept answers name their file in full.
func SameFile(kept, path string) bool {
	if kept == path || kept == "" || path == "" {
		return kept == path
	}
	abs, err := filepath.Abs(path)
	return err == nil && kept == abs
}

// Why another house cannot take the place of this one unasked.
const (
	UnsavedHouse = "Your answers are in no file of yours and would be replaced"
	UnsavedWalk  = "What you noted of the finished work is in no file of yours and would be replaced"
	KeptEarlier  = "Answers of an earlier time are kept and would be replaced"
)

// NoCopy says why nothing was replaced.
const NoCopy = "Nothing was replaced, because no copy of your answers could be kept: "

// CopyIn says where answers are that made room for another house.
func CopyIn(where string) string {
	return "The answers before are kept in " + where + ": open it to go on with them."
}

// replaced tells what would be lost if the house of a file, or a new one when
// target is empty, took the place of one; empty when nothing would. Answers kept
// for no file would make room for those of a new house; those kept for a file are
// offered when it is opened.
func replaced(saved, walk bool, kept Earlier, target string) string {
	switch {
	case !saved:
		return UnsavedHouse
	case walk:
		return UnsavedWalk
	case target == "" && kept.There && SameFile(kept.Path, target):
		return KeptEarlier
	}
	return ""
}
