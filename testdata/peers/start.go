package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"syscall"
	"time"

	"github.com/creack/pty"
)

// compareStart measures how long the program takes to its menu and to its first
// answered question, against an empty program of the same terminal library that
// answers as many keys, how long the demo's plan takes against an empty program,
// and how much memory both take. All run in turn, so that a busy moment hits all
// alike, and of ratios the median counts.
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
	var runs, menus, firsts []float64
	var memory, screenMemory int64
	for n := range 25 {
		runs = append(runs, ran(exec.Command(paths["ours"], "plan"), &memory)/ran(exec.Command(paths["empty"]), nil))
		least, _, err := framed(paths["screen"], filepath.Join(dir, fmt.Sprint("least", n)), "ready 0", "1", "2")
		if err != nil {
			return err
		}
		ours, kept, err := framed(paths["ours"], filepath.Join(dir, fmt.Sprint("ours", n)), "rough look", "not framed yet", "older house")
		if err != nil {
			return err
		}
		menus, firsts = append(menus, ours[0]/least[0]), append(firsts, ours[2]/least[2])
		screenMemory = max(screenMemory, kept)
	}
	fmt.Printf("plan of the demo: %.0f times an empty program\n", median(runs))
	fmt.Printf("start to menu: %.2f empty screens; to the first answered question: %.2f (at most 1.5 wanted)\n", median(menus), median(firsts))
	fmt.Printf("most memory: plan %.1f MB, screens %.1f MB\n", float64(memory)/1000, float64(screenMemory)/1000)
	return nil
}

func median(all []float64) float64 {
	slices.Sort(all)
	return all[len(all)/2]
}

// ran gives the seconds a program runs.
func ran(cmd *exec.Cmd, memory *int64) float64 {
	began := time.Now()
	if err := cmd.Run(); err != nil {
		fmt.Println("failed:", err)
	}
	took := time.Since(began).Seconds()
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

// framed runs a program in a terminal until each of some texts is on its screen,
// and gives the seconds to each. Between them it presses 1, 2 and so on.
func framed(path, home string, texts ...string) (took []float64, memory int64, err error) {
	cmd := exec.Command(path)
	cmd.Env = []string{"TERM=xterm-256color", "HOME=" + home}
	began := time.Now()
	f, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	buf := make([]byte, 1<<14)
	for i, text := range texts {
		var all []byte
		if i > 0 {
			fmt.Fprint(f, i)
		}
		for !bytes.Contains(all, []byte(text)) {
			n, err := f.Read(buf)
			if err != nil {
				return nil, 0, fmt.Errorf("%s ended before %q was seen: %w", path, text, err)
			}
			all = append(all, buf[:n]...)
		}
		took = append(took, time.Since(began).Seconds())
	}
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
