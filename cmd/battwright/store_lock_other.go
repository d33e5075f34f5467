//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd || windows)

package main

import "os"

// lockFile has no lock to take on these systems: a second program that runs
// there at the same time shares the kept answers.
func lockFile(path string) (*os.File, error) { return os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600) }
