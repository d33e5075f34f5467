package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// smallDisk is a file system of a few kilobytes. Only root may make one.
func smallDisk(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if os.Getuid() != 0 {
		t.Skip("a file system of one's own needs root; failing steps are tested without")
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=64k"); err != nil {
		t.Skip("no file system of one's own here:", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, 0)) })
	return dir
}

// On a disk that is full nothing old is lost, nothing half is left, the words
// say why, and once there is room the same save works.
func TestFullDisk(t *testing.T) {
	dir := smallDisk(t)
	s := newStore(environ(map[string]string{"XDG_STATE_HOME": dir}))
	defer s.Close()
	path := filepath.Join(dir, "house.toml")
	require.NoError(t, s.Write(path, oldText, false))
	require.NoError(t, s.Autosave(1, oldText))
	filling := filepath.Join(dir, "filling")
	for size := 64 << 10; size > 0; size /= 2 {
		f, err := os.OpenFile(filling, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o600)
		require.NoError(t, err)
		f.WriteString(strings.Repeat("x", size)) // until nothing fits any more
		f.Close()
	}
	big := newText + strings.Repeat("# more\n", 2000)
	for _, err := range []error{s.Write(path, big, true), s.Autosave(2, big), s.Write(filepath.Join(dir, "other.toml"), big, false)} {
		require.ErrorContains(t, err, "no space left on device")
		require.NotContains(t, err.Error(), ".tmp")
	}
	require.Equal(t, oldText, readFile(t, path))
	text, _, ok := s.Resume()
	require.True(t, ok)
	require.Equal(t, oldText, text)
	require.NoFileExists(t, filepath.Join(dir, "other.toml"))
	for _, d := range []string{dir, s.dir} {
		left, err := filepath.Glob(filepath.Join(d, tempPattern))
		require.NoError(t, err)
		require.Empty(t, left)
	}

	r := runs("plan", goodHouse, "--out", filepath.Join(dir, "plan.txt"))
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "no space left on device")
	require.NoFileExists(t, filepath.Join(dir, "plan.txt"), "no half of a result")

	require.NoError(t, os.Remove(filling))
	require.NoError(t, s.Write(path, big, true))
	require.NoError(t, s.Autosave(2, big), "the number that could not be kept may be kept again")
	require.Equal(t, big, readFile(t, path))
}

// Where nothing can be written the answers can still be read, nothing is
// lost, and a plan is printed all the same.
func TestReadOnlyFolder(t *testing.T) {
	dir := smallDisk(t)
	state := map[string]string{"XDG_STATE_HOME": dir, "HOME": dir}
	s := newStore(environ(state))
	path := filepath.Join(dir, "house.toml")
	require.NoError(t, os.WriteFile(path, []byte(readFile(t, goodHouse)), 0o644))
	require.NoError(t, s.Autosave(1, oldText))
	s.Close()
	require.NoError(t, syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, "size=64k"))

	again := newStore(environ(state))
	defer again.Close()
	text, _, ok := again.Resume()
	require.True(t, ok)
	require.Equal(t, oldText, text)
	require.ErrorContains(t, again.Autosave(1, newText), "read-only file system")
	require.ErrorContains(t, again.Write(path, newText, true), "read-only file system")
	require.Equal(t, readFile(t, goodHouse), readFile(t, path))

	for _, args := range [][]string{{"plan", path}, {"plan"}, {"check", path}, {"words"}, {"order", path}, {"tour"}, {"completion", "bash"}} {
		r := with{environ: state}.run(args...)
		require.Equal(t, exitDone, r.code, "%q: %s", args, r.stderr)
	}
	r := with{stdin: "1\nframed\nquit\n", environ: state}.run("ask")
	require.NotEqual(t, exitInternal, r.code)
	require.Contains(t, r.stdout+r.stderr, "could not be kept", "the person is told")
}

// A folder without the right to write in it says so. Root may write anywhere,
// so this needs an ordinary user.
func TestFolderWithoutRights(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("root may write anywhere; see the read-only file system")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "house.toml")
	require.NoError(t, os.WriteFile(path, []byte(oldText), 0o644))
	require.NoError(t, os.Chmod(dir, 0o500))
	t.Cleanup(func() { os.Chmod(dir, 0o700) })
	s := newStore(environ(nil))
	require.ErrorContains(t, s.Write(path, newText, true), "no permission")
	require.Equal(t, oldText, readFile(t, path))
}

// A device takes a result, and stays a device; no house is saved in its place.
func TestDeviceStaysADevice(t *testing.T) {
	require.Equal(t, exitDone, runs("plan", "--out", os.DevNull, "--force").code)
	full := runs("plan", "--out", "/dev/full", "--force")
	require.Equal(t, exitInput, full.code)
	require.Contains(t, full.stderr, "no space left on device")
	require.ErrorIs(t, newStore(environ(nil)).Write(os.DevNull, newText, true), errNotOrdinary)
	for _, name := range []string{os.DevNull, "/dev/full"} {
		info, err := os.Stat(name)
		require.NoError(t, err)
		require.NotZero(t, info.Mode()&os.ModeCharDevice, name)
	}
	pipe := filepath.Join(t.TempDir(), "pipe")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	got := make(chan string)
	go func() {
		b, err := os.ReadFile(pipe)
		got <- fmt.Sprint(string(b), err)
	}()
	require.Equal(t, exitDone, runs("plan", goodHouse, "--out", pipe, "--force").code)
	require.Equal(t, runs("plan", goodHouse).stdout+"<nil>", <-got)
}
