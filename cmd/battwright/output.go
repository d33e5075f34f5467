package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"battwright/rules/page"
	"battwright/rules/print"
)

// rendered is what a command prints in the format that was asked for.
func (o options) rendered(asJSON func() ([]byte, error), asPage func() (page.Page, error)) (string, error) {
	if o.format == "json" {
		b, err := asJSON()
		return string(b), err
	}
	d, err := asPage()
	return print.As(o.format, d, o.width), err
}

// print writes a result to standard output or to the file that was named.
func (o options) print(text string, e env) int {
	if o.out == "" || o.out == "-" {
		if _, err := fmt.Fprint(e.stdout, text); err != nil {
			return fail(e, err)
		}
		return exitDone
	}
	if o.isInput(e.stdin) {
		return fail(e, fmt.Errorf("%s is what this is made from: give the result another name", o.out))
	}
	err := writeResult(o.out, text, o.force)
	if errors.Is(err, fs.ErrExist) {
		return fail(e, fmt.Errorf("%s is there already; add --force to overwrite it", o.out))
	}
	if err != nil {
		return fail(e, fmt.Errorf("%s: %w", o.out, plainPathError(err)))
	}
	return exitDone
}

// isInput reports whether the result would replace a file it is made from, a named
// one or one of the data folder, under whatever name or link.
func (o options) isInput(stdin io.Reader) bool {
	to, err := os.Stat(o.out)
	if err != nil || !to.Mode().IsRegular() {
		return false
	}
	inputs := o.files
	if o.dataDir != "" {
		more, _ := filepath.Glob(filepath.Join(globSafe(o.dataDir), "*.toml"))
		inputs = append(slices.Clone(inputs), more...)
	}
	for _, path := range inputs {
		info, err := os.Stat(path)
		if f, ok := stdin.(*os.File); path == "-" && ok {
			info, err = f.Stat()
		}
		if err == nil && os.SameFile(to, info) {
			return true
		}
	}
	return false
}

// watched is standard output that remembers that something did not arrive, for
// commands that print line by line.
type watched struct {
	to  io.Writer
	err error
}

func (w *watched) Write(p []byte) (int, error) {
	n, err := w.to.Write(p)
	if w.err == nil {
		w.err = err
	}
	return n, err
}
