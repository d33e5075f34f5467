package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"
)

// disk is what writing a file whole needs of the system, one step a method,
// so that a test can stop the process between any two of them.
type disk interface {
	Temp(dir string) (name string, f tempFile, err error)
	Rename(from, to string) error
	SyncDir(dir string) error
	Remove(name string) error
}

// tempFile is the file that is written before it takes the place of another.
type tempFile interface {
	io.Writer
	Chmod(fs.FileMode) error
	Sync() error
	Close() error
}

// tempPattern names files under way. It neither ends in .toml nor is it any
// name that is ever read, so what a power cut leaves is taken for no house.
const tempPattern = ".battwright-*.tmp"

// leftAfter is how old a temporary file is before it counts as left behind by
// a process that was stopped: no write takes that long.
const leftAfter = time.Hour

var (
	errReadOnly    = errors.New("this file is marked read-only")
	errFolder      = errors.New("this is a folder; name a file in it")
	errNotOrdinary = errors.New("this is not an ordinary file")
	errLinkCircle  = errors.New("this link leads in a circle")
)

// writeWhole replaces a file in one step. A symbolic link is followed, so
// that the file it points to is replaced and not the link.
func writeWhole(path, text string, mode fs.FileMode) error {
	path, err := behindLinks(path)
	if err != nil {
		return err
	}
	if info, err := os.Lstat(path); err == nil {
		switch mode = info.Mode().Perm(); {
		case info.IsDir():
			return errFolder
		case !info.Mode().IsRegular():
			return errNotOrdinary // a rename would put a file in the place of a device
		case mode&0o200 == 0:
			return errReadOnly // a rename would not mind, the person would
		}
	}
	sweep(filepath.Dir(path))
	return replaceFile(systemDisk{}, path, text, mode)
}

// writeResult writes what a command was told to put in a file. A file that is
// there is only replaced when that was asked for; a device or a pipe, which has
// nothing to replace, is written to as it stands.
func writeResult(path, text string, overwrite bool) error {
	info, err := os.Stat(path)
	switch {
	case err == nil && info.IsDir():
		return errFolder
	case err == nil && !info.Mode().IsRegular():
		f, err := os.OpenFile(path, os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		_, err = io.WriteString(f, text)
		return errors.Join(err, f.Close())
	}
	if _, err := os.Lstat(path); err == nil && !overwrite {
		return fs.ErrExist
	}
	return writeWhole(path, text, 0o644)
}

// replaceFile is the writing itself: whatever happens in between, the path
// names the old text or the new one, whole.
func replaceFile(d disk, path, text string, mode fs.FileMode) error {
	tmp, f, err := d.Temp(filepath.Dir(path))
	if err != nil {
		return err
	}
	if err := fill(f, text, mode); err != nil {
		return errors.Join(err, d.Remove(tmp))
	}
	if err := d.Rename(tmp, path); err != nil {
		return errors.Join(err, d.Remove(tmp))
	}
	return d.SyncDir(filepath.Dir(path))
}

// fill writes, syncs and closes. The text must be on the disk before the name
// is: else a power cut could leave the new name on an empty file.
func fill(f tempFile, text string, mode fs.FileMode) error {
	_, err := io.WriteString(f, text)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// behindLinks follows links to the file that is meant, also when it is not
// there yet.
func behindLinks(path string) (string, error) {
	for range 40 {
		info, err := os.Lstat(path)
		if err != nil || info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		to, err := os.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", errLinkCircle
}

// sweep takes away temporary files of processes that were stopped long ago.
// Failing to is no reason not to write.
func sweep(dir string) {
	left, err := filepath.Glob(filepath.Join(globSafe(dir), tempPattern))
	if err != nil {
		return
	}
	for _, name := range left {
		if info, err := os.Lstat(name); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > leftAfter {
			os.Remove(name)
		}
	}
}

// globSafe keeps a folder's own brackets and stars from being a pattern.
func globSafe(dir string) string {
	var out []rune
	for _, r := range dir {
		switch r {
		case '*', '?', '[':
			out = append(out, '[', r, ']')
		default:
			out = append(out, r)
		}
	}
	return string(out)
}

// systemDisk is the real one.
type systemDisk struct{}

func (systemDisk) Temp(dir string) (string, tempFile, error) {
	f, err := os.CreateTemp(dir, tempPattern)
	if err != nil {
		return "", nil, err
	}
	return f.Name(), f, nil
}

func (systemDisk) Rename(from, to string) error { return os.Rename(from, to) }

func (systemDisk) Remove(name string) error { return os.Remove(name) }

// SyncDir makes the rename itself last through a power cut. Systems that
// cannot open or sync a folder say so, and the file is there all the same.
func (systemDisk) SyncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return nil
	}
	err = d.Sync()
	d.Close()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) || errors.Is(err, fs.ErrPermission) {
		return nil
	}
	return err
}
