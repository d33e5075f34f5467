package main

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
)

// outFlags are the options of commands whose result may go to a file.
type outFlags struct {
	out   string
	force bool
}

func (o *outFlags) declare(f *flag.FlagSet) {
	f.StringVar(&o.out, "out", "", "")
	f.BoolVar(&o.force, "force", false, "")
}

// print writes a result to standard output or to the file that was named.
func (o outFlags) print(text string, e env) int {
	if o.out == "" {
		if _, err := fmt.Fprint(e.stdout, text); err != nil {
			return fail(e, err)
		}
		return exitDone
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
