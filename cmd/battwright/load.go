package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/testdata/demo"
)

// loadCatalog reads the embedded data and lays an overlay folder over it.
func loadCatalog(dir string) (*catalog.Catalog, error) {
	var overlay fs.FS
	if dir != "" {
		info, err := os.Stat(dir)
		if err != nil {
			return nil, fmt.Errorf("--data %s: %w", dir, plainPathError(err))
		}
		if !info.IsDir() {
			return nil, fmt.Errorf("--data %s: not a folder", dir)
		}
		overlay = os.DirFS(dir)
	}
	return catalog.Load(data.Files, overlay)
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
	if path == "-" && stdin == nil {
		return "", errors.New("the answers come from the keyboard here, so the house cannot; name a house file")
	}
	if path != "-" {
		info, err := os.Stat(path)
		if err != nil {
			return "", err
		}
		if info.IsDir() {
			return "", errors.New("this is a folder; name a house file in it")
		}
		f, err := os.Open(path)
		if err != nil {
			return "", err
		}
		defer f.Close()
		r = f
	}
	b, err := io.ReadAll(io.LimitReader(r, strict.MaxBytes+1))
	return string(b), err
}

// demoHouse is the house that is planned when no file is named.
func demoHouse(l *house.QuestionList) (*house.House, error) {
	return house.Read(l, demo.Default, demo.Text(demo.Default))
}
