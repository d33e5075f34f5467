package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/testdata/demo"
)

// loadCatalog reads the embedded data and lays an overlay folder over it.
func (e env) loadCatalog(dir string) (*catalog.Catalog, error) {
	var overlay fs.FS
	if dir != "" {
		info, err := os.Stat(dir)
		if err != nil {
			return nil, fmt.Errorf("--data %s: %w", dir, plainPathError(err))
		}
		if !info.IsDir() {
			return nil, fmt.Errorf("--data %s: not a folder", dir)
		}
		overlay = dataFolder{os.DirFS(dir), dir}
	}
	if e.files != nil {
		return catalog.Load(e.files, overlay)
	}
	return catalog.Load(data.Files, overlay)
}

// dataFolder is a folder of the person's own data. Its files are measured
// before they are read, and must be files.
type dataFolder struct {
	fs.FS
	dir string
}

func (d dataFolder) ReadFile(name string) ([]byte, error) {
	path := filepath.Join(d.dir, name)
	text, err := readOrdinary(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, plainPathError(err))
	}
	return []byte(text), nil
}

// plainPathError says what is wrong with a path without repeating the path.
func plainPathError(err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("there is no such file or folder")
	case errors.Is(err, fs.ErrPermission):
		return errors.New("no permission")
	}
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	var le *os.LinkError
	if errors.As(err, &le) {
		return le.Err
	}
	return err
}

// readHouse reads one house file; "-" is standard input.
func readHouse(l *house.QuestionList, path string, stdin io.Reader) (*house.House, error) {
	text, err := readText(path, stdin)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, plainPathError(err))
	}
	return house.Read(l, path, text)
}

// readText reads no more than a house file may have, so that a wrong path to
// a huge file is refused quickly. "-" is stdin, where that is not nil.
func readText(path string, stdin io.Reader) (string, error) {
	r := stdin
	if path != "-" {
		info, err := os.Stat(path)
		if err != nil {
			return "", err
		}
		if info.IsDir() {
			return "", errHouseFolder
		}
		if info.Mode().IsRegular() {
			return readOrdinary(path)
		}
		f, err := os.Open(path)
		if err != nil {
			return "", err
		}
		defer f.Close()
		r = f
	}
	return readSome(r)
}

var (
	errHouseFolder = errors.New("this is a folder; name a house file in it")
	errTooLong     = fmt.Errorf("longer than a file of this kind can be (%d bytes, 1 MiB); is this the right file?", strict.MaxBytes)
)

// readOrdinary reads a file and nothing else: a pipe or a device could keep it
// waiting for ever, and is not even opened to wait.
func readOrdinary(path string) (string, error) {
	if path == "-" {
		return "", errors.New("the answers come from the keyboard here, so the house cannot; name a house file")
	}
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return "", err
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return "", err
	case info.IsDir():
		return "", errHouseFolder
	case !info.Mode().IsRegular():
		return "", errNotOrdinary
	case info.Size() > strict.MaxBytes:
		return "", errTooLong
	}
	return readSome(f)
}

func readSome(r io.Reader) (string, error) {
	b, err := io.ReadAll(io.LimitReader(r, strict.MaxBytes+1))
	if err == nil && len(b) > strict.MaxBytes {
		err = errTooLong
	}
	return string(b), err
}

// demoHouse is the house that is planned when no file is named.
func demoHouse(l *house.QuestionList) (*house.House, error) {
	return house.Read(l, demo.Default, demo.Text(demo.Default))
}
