//go:build unix

package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// savesIn tells the test program to be the one that saves until it is killed.
const savesIn = "BATTWRIGHT_TEST_SAVES_IN"

// init runs before any test, so that a process that is only to be killed
// starts quickly.
func init() {
	if dir := os.Getenv(savesIn); dir != "" {
		saveUntilKilled(dir)
		os.Exit(0)
	}
}

// generation is a house text that proves itself whole: a number, a filling
// whose length depends on it, and a checksum.
func generation(n int) string {
	body := fmt.Sprintf("version = %d\n%s", n, strings.Repeat(fmt.Sprintf("# line of %d\n", n), 50+n%400))
	return body + fmt.Sprintf("# sum %08x\n", crc32.ChecksumIEEE([]byte(body)))
}

// generationOf reads the number of a whole text.
func generationOf(text string) (int, error) {
	head, _, _ := strings.Cut(text, "\n")
	n, err := strconv.Atoi(strings.TrimPrefix(head, "version = "))
	if err == nil && text != generation(n) {
		err = errors.New("a mix or a part")
	}
	if err != nil {
		return 0, fmt.Errorf("%w: %d bytes from %q", err, len(text), head)
	}
	return n, nil
}

// saveUntilKilled saves to the person's file and to the kept answers in turn,
// and says what was reported as saved.
func saveUntilKilled(dir string) {
	s := newStore(func(k string) string { return map[string]string{"XDG_STATE_HOME": dir}[k] })
	path := filepath.Join(dir, "house.toml")
	first := 1
	if text, err := s.Read(path); err == nil {
		if n, err := generationOf(text); err == nil {
			first = n + 1
		}
	}
	s.Resume() // take the kept answers over, as the screens do
	for n := first; ; n++ {
		if err := s.Write(path, generation(n), true); err != nil {
			fmt.Println("failed", err)
			return
		}
		fmt.Println("file", n)
		if err := s.Autosave(n, generation(n)); err != nil {
			fmt.Println("failed", err)
			return
		}
		fmt.Println("kept", n)
	}
}

// killedOnce starts the saving program, kills it after a while and gives what
// it had reported saved.
func killedOnce(dir string, after time.Duration) (file, kept int, err error) {
	exe, err := os.Executable()
	if err != nil {
		return 0, 0, err
	}
	cmd := exec.Command(exe)
	cmd.Env = []string{savesIn + "=" + dir, "TMPDIR=" + dir}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return 0, 0, err
	}
	if err := cmd.Start(); err != nil {
		return 0, 0, err
	}
	r := bufio.NewReader(out)
	line, err := r.ReadString('\n') // the first save is done: the kill can hit any later one
	if err != nil {
		return 0, 0, errors.Join(err, cmd.Wait())
	}
	time.AfterFunc(after, func() { cmd.Process.Kill() })
	rest, err := io.ReadAll(r)
	cmd.Wait()
	if err != nil {
		return 0, 0, err
	}
	for _, l := range bytes.Split(append([]byte(line), rest...), []byte("\n")) {
		var n int
		switch _, err := fmt.Sscanf(string(l), "file %d", &n); {
		case err == nil:
			file = n
		case strings.HasPrefix(string(l), "kept "):
			kept, _ = strconv.Atoi(string(l[5:]))
		case strings.HasPrefix(string(l), "failed"):
			return 0, 0, errors.New(string(l))
		}
	}
	return file, kept, nil
}

// A program killed at any moment while it saves leaves the file and the kept
// answers whole, each as new as it was reported or one newer.
func TestKilledWhileSaving(t *testing.T) {
	t.Parallel()
	kills := 1000
	if testing.Short() {
		kills = 50
	}
	const at = 2 // one a processor of the smallest machine
	var wait sync.WaitGroup
	var mu sync.Mutex
	left := 0 // kills that came in the middle of a write
	for worker := range at {
		wait.Add(1)
		dir := t.TempDir()
		go func() {
			defer wait.Done()
			random := rand.New(rand.NewPCG(11, uint64(worker)))
			for i := range kills / at {
				file, kept, err := killedOnce(dir, time.Duration(random.IntN(3_000_000)))
				if err == nil {
					err = wholeAfter(dir, file, kept)
				}
				if err != nil {
					t.Errorf("kill %d: %v", i, err)
					return
				}
				mu.Lock()
				left += cleared(dir)
				mu.Unlock()
			}
		}()
	}
	wait.Wait()
	t.Logf("%d kills, %d of them in the middle of a write", kills, left)
	require.Positive(t, left, "no kill came while a file was being written: the test tests nothing")
}

func wholeAfter(dir string, file, kept int) error {
	s := newStore(func(k string) string { return map[string]string{"XDG_STATE_HOME": dir}[k] })
	defer s.Close()
	text, err := s.Read(filepath.Join(dir, "house.toml"))
	if err != nil {
		return err
	}
	n, err := generationOf(text)
	if err != nil || n != file && n != file+1 {
		return fmt.Errorf("reported %d saved, found %d: %w", file, n, err)
	}
	text, _, ok := s.Resume()
	if !ok {
		if kept == 0 {
			return nil // killed before the first was kept
		}
		return errors.New("the kept answers are gone")
	}
	n, err = generationOf(text)
	if err != nil || kept > 0 && n != kept && n != kept+1 {
		return fmt.Errorf("reported %d kept, found %d: %w", kept, n, err)
	}
	return nil
}

// cleared counts and takes away what the kill left under way.
func cleared(dir string) int {
	n := 0
	for _, d := range []string{dir, filepath.Join(dir, "battwright")} {
		found, _ := filepath.Glob(filepath.Join(d, tempPattern))
		for _, name := range found {
			os.Remove(name)
			n++
		}
	}
	return n
}
