package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"time"

	"github.com/creack/pty"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
)

// compareStart measures how long the program takes to its first frame, against
// an empty program and an empty one of the same terminal library, and how much
// memory it takes.
func compareStart() error {
	dir, err := os.MkdirTemp("", "peers-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	paths := map[string]string{"empty": "./empty", "screen": "./emptyscreen", "ours": "battwright/cmd/battwright"}
	for name, pkg := range paths {
		out := filepath.Join(dir, name)
		if text, err := exec.Command("go", "build", "-trimpath", "-o", out, pkg).CombinedOutput(); err != nil {
			return fmt.Errorf("%w: %s", err, text)
		}
		paths[name] = out
	}
	load := perRun(func() {
		c, err := catalog.Load(data.Files, nil)
		if err != nil {
			panic(err)
		}
		house.NewList(c)
	})
	var empty, version, plan, least, first []time.Duration
	var memory, screenMemory int64
	for range 25 { // in turn, so that a busy moment hits all alike
		empty = append(empty, ran(exec.Command(paths["empty"]), nil))
		version = append(version, ran(exec.Command(paths["ours"], "--version"), nil))
		plan = append(plan, ran(exec.Command(paths["ours"], "plan"), &memory))
		took, _, err := framed(paths["screen"], "ready", dir)
		if err != nil {
			return err
		}
		least = append(least, took)
		took, kept, err := framed(paths["ours"], "rough look", dir)
		if err != nil {
			return err
		}
		first, screenMemory = append(first, took), max(screenMemory, kept)
	}
	m := func(all []time.Duration) time.Duration { return share(all, 0.5).Round(10 * time.Microsecond) }
	fmt.Printf("start to end: empty program %v, ours --version %v, ours plan %v\n", m(empty), m(version), m(plan))
	bound := 1.3*m(least).Seconds() + load.Seconds()
	fmt.Printf("start to first frame: empty screen %v, ours %v, loading the data %v: %.2f times the bound of 1.3 empty screens and the loading\n",
		m(least), m(first), load.Round(10*time.Microsecond), m(first).Seconds()/bound)
	fmt.Printf("most memory: plan %.1f MB, screens %.1f MB\n", float64(memory)/1000, float64(screenMemory)/1000)
	return nil
}

func ran(cmd *exec.Cmd, memory *int64) time.Duration {
	began := time.Now()
	if err := cmd.Run(); err != nil {
		fmt.Println("failed:", err)
	}
	took := time.Since(began)
	if memory != nil {
		*memory = max(*memory, peak(cmd))
	}
	return took
}

// peak is the most memory a program that ended had, in kB where the system
// counts so.
func peak(cmd *exec.Cmd) int64 {
	if u, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
		return u.Maxrss
	}
	return 0
}

// framed runs a program in a terminal until a text is on its screen.
func framed(path, text, home string) (time.Duration, int64, error) {
	cmd := exec.Command(path)
	cmd.Env = []string{"TERM=xterm-256color", "HOME=" + home}
	began := time.Now()
	f, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		return 0, 0, err
	}
	defer f.Close()
	var all []byte
	buf := make([]byte, 1<<14)
	for !bytes.Contains(all, []byte(text)) {
		n, err := f.Read(buf)
		if err != nil {
			return 0, 0, fmt.Errorf("%s ended before %q was seen: %w", path, text, err)
		}
		all = append(all, buf[:n]...)
	}
	took := time.Since(began)
	f.Write([]byte("\x03"))
	f.Write([]byte("q"))
	go func() { // drained, so that the program can end
		for {
			if _, err := f.Read(buf); err != nil {
				return
			}
		}
	}()
	cmd.Wait()
	return took, peak(cmd), nil
}
