package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"battwright/rules/strict"
)

// outFlags are the options of commands whose result may go to a file.
type outFlags struct {
	out    string // "-" and empty are standard output
	force  bool
	inputs []string // what the result is made from, and may not replace
}

func (o *outFlags) declare(f *flag.FlagSet) {
	f.Func("out", "", func(name string) error {
		if clean, changed := strict.CleanText(name); changed || clean == "" {
			return errors.New("not the name of a file")
		}
		o.out = name
		return nil
	})
	f.BoolVar(&o.force, "force", false, "")
}

// madeFrom says which files the result comes from: those named, and those of
// the data folder.
func (o *outFlags) madeFrom(files []string, dataDir string) {
	o.inputs = append(o.inputs, files...)
	if dataDir != "" {
		more, _ := filepath.Glob(filepath.Join(globSafe(dataDir), "*.toml"))
		o.inputs = append(o.inputs, more...)
	}
}

// print writes a result to standard output or to the file that was named.
func (o outFlags) print(text string, e env) int {
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

// isInput reports whether the result would replace a file it is made from,
// under whatever name or link.
func (o outFlags) isInput(stdin io.Reader) bool {
	to, err := os.Stat(o.out)
	if err != nil || !to.Mode().IsRegular() {
		return false
	}
	for _, path := range o.inputs {
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
