//go:build unix

package main

import (
	"os"
	"os/signal"
	"syscall"
)

// resumes hears that the program goes on after a pause, until deaf is called.
func resumes() (resumed <-chan os.Signal, deaf func()) {
	c := make(chan os.Signal, 1)
	signal.Notify(c, syscall.SIGCONT)
	return c, func() { signal.Stop(c) }
}
