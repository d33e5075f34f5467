package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is on the disk after a power cut is what POSIX fsync promises and no
// more: data of a file once the file was synced, a name once its folder was.
// Source: IEEE Std 1003.1-2017, fsync and rename (mark: memory).

// errStopped is what every step gives once the process is no more.
var errStopped = errors.New("stopped")

// stopDisk does the first steps for real and none of the others, clearing up
// included, as a process does that is stopped there.
type stopDisk struct {
	real  disk
	left  int
	taken []string // the steps that were done
}

func (d *stopDisk) step(name string) error {
	if d.left <= 0 {
		return errStopped
	}
	d.left--
	d.taken = append(d.taken, name)
	return nil
}

func (d *stopDisk) Temp(dir string) (string, tempFile, error) {
	if err := d.step("create"); err != nil {
		return "", nil, err
	}
	name, f, err := d.real.Temp(dir)
	return name, &stopFile{d, f}, err
}

func (d *stopDisk) Rename(from, to string) error {
	if err := d.step("rename"); err != nil {
		return err
	}
	return d.real.Rename(from, to)
}

func (d *stopDisk) SyncDir(dir string) error {
	if err := d.step("sync folder"); err != nil {
		return err
	}
	return d.real.SyncDir(dir)
}

func (d *stopDisk) Remove(name string) error {
	if err := d.step("remove"); err != nil {
		return err
	}
	return d.real.Remove(name)
}

type stopFile struct {
	d    *stopDisk
	real tempFile
}

// Write hands on a few bytes at a time: a stop may come between any two.
func (f *stopFile) Write(p []byte) (int, error) {
	done := 0
	for _, size := range []int{1, len(p) / 2, len(p)} {
		size = min(size, len(p)-done)
		if err := f.d.step("write part"); err != nil {
			return done, err
		}
		n, err := f.real.Write(p[done : done+size])
		done += n
		if err != nil {
			return done, err
		}
	}
	return done, nil
}

func (f *stopFile) Chmod(m fs.FileMode) error {
	if err := f.d.step("rights"); err != nil {
		return err
	}
	return f.real.Chmod(m)
}

func (f *stopFile) Sync() error {
	if err := f.d.step("sync"); err != nil {
		return err
	}
	return f.real.Sync()
}

func (f *stopFile) Close() error {
	if err := f.d.step("close"); err != nil {
		f.real.Close() // the system closes for a process that is gone
		return err
	}
	return f.real.Close()
}

var allSteps = []string{"create", "write part", "write part", "write part", "rights", "sync", "close", "rename", "sync folder"}

const (
	oldText = "version = 1\nname = \"the old house\"\n"
	newText = "version = 1\nname = \"the new house, with more to say than the old one had\"\n"
)

// Stopped after any step, the file is the old one or the new one, whole.
func TestStoppedAtEveryStep(t *testing.T) {
	for steps := 0; steps <= len(allSteps); steps++ {
		dir := t.TempDir()
		path := filepath.Join(dir, "house.toml")
		require.NoError(t, os.WriteFile(path, []byte(oldText), 0o644))
		d := &stopDisk{real: systemDisk{}, left: steps, taken: []string{}}
		err := replaceFile(d, path, newText, 0o644)
		require.Equal(t, allSteps[:steps], d.taken)
		want := oldText
		if steps >= 8 { // the rename was done
			want = newText
		}
		require.Equal(t, want, readFile(t, path), "after %v", d.taken)
		require.Equal(t, steps == len(allSteps), err == nil, "only a whole write is reported done")
		noHouseButOurs(t, dir, steps == 0 || steps >= 8)
	}
}

// noHouseButOurs checks what a stop left: nothing that reads as a house file.
func noHouseButOurs(t *testing.T, dir string, clear bool) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	houses, err := filepath.Glob(filepath.Join(dir, "*.toml"))
	require.NoError(t, err)
	require.Len(t, houses, 1)
	require.Equal(t, clear, len(entries) == 1)
	for _, e := range entries {
		if e.Name() != "house.toml" {
			require.Regexp(t, `^\.battwright-[0-9]+\.tmp$`, e.Name())
		}
	}
}

// A temporary file that was left is no kept answer, and goes when it is old.
func TestLeftoversAreNoAnswers(t *testing.T) {
	dir := t.TempDir()
	s := newStore(environ(map[string]string{"XDG_STATE_HOME": dir}))
	require.NoError(t, os.MkdirAll(s.dir, 0o700))
	fresh, stale := filepath.Join(s.dir, ".battwright-1.tmp"), filepath.Join(s.dir, ".battwright-2.tmp")
	theirs := filepath.Join(s.dir, "battwright-2.tmp")
	for _, name := range []string{fresh, stale, theirs} {
		require.NoError(t, os.WriteFile(name, []byte(newText), 0o600))
	}
	info, err := os.Stat(stale)
	require.NoError(t, err)
	for _, name := range []string{stale, theirs} {
		require.NoError(t, os.Chtimes(name, info.ModTime(), info.ModTime().Add(-2*leftAfter)))
	}
	_, _, ok := s.Resume()
	require.False(t, ok)
	require.NoError(t, s.Autosave(1, oldText))
	text, _, ok := s.Resume()
	require.True(t, ok)
	require.Equal(t, oldText, text)
	require.NoFileExists(t, stale)
	require.FileExists(t, fresh, "another program may be writing it")
	require.FileExists(t, theirs)
}

// failDisk fails one step the way a full or worn disk does, and goes on
// working.
type failDisk struct {
	systemDisk
	at  string
	err error
}

func (d failDisk) Temp(dir string) (string, tempFile, error) {
	if d.at == "create" {
		return "", nil, d.err
	}
	name, f, err := d.systemDisk.Temp(dir)
	return name, failFile{f, d}, err
}

func (d failDisk) Rename(from, to string) error {
	if d.at == "rename" {
		return d.err
	}
	return d.systemDisk.Rename(from, to)
}

type failFile struct {
	tempFile
	d failDisk
}

func (f failFile) Write(p []byte) (int, error) {
	if f.d.at == "write" {
		n, _ := f.tempFile.Write(p[:len(p)/2])
		return n, f.d.err
	}
	return f.tempFile.Write(p)
}

func (f failFile) Sync() error {
	if f.d.at == "sync" {
		return f.d.err
	}
	return f.tempFile.Sync()
}

func (f failFile) Close() error {
	err := f.tempFile.Close()
	if f.d.at == "close" {
		return f.d.err
	}
	return err
}

// A step that fails leaves the old file, no temporary one, and says why.
func TestFailedStepLeavesTheOldFile(t *testing.T) {
	for _, at := range []string{"create", "write", "sync", "close", "rename"} {
		for _, why := range []error{syscall.ENOSPC, syscall.EIO, syscall.EROFS} {
			dir := t.TempDir()
			path := filepath.Join(dir, "house.toml")
			require.NoError(t, os.WriteFile(path, []byte(oldText), 0o644))
			err := replaceFile(failDisk{at: at, err: why}, path, newText, 0o644)
			require.ErrorIs(t, err, why, at)
			require.Equal(t, oldText, readFile(t, path), at)
			noHouseButOurs(t, dir, true)
			require.NotContains(t, plainPathError(err).Error(), dir, "the message names a file that is nobody's business")
			require.Equal(t, 1, strings.Count(plainPathError(err).Error()+"\n", "\n"))
		}
	}
}
