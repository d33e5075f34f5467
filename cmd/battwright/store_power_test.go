package main

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"
)

// powerDisk is a disk on paper. What a sync has not made safe may be there or
// not after a power cut: both are looked at.
type powerDisk struct {
	data    map[string]string // by name, as programs see it
	safe    map[string]string // data that a sync made safe
	names   map[string]string // name on the disk: the name it was written under
	renamed [2]string         // a rename that the folder does not have yet
	left    int
}

func newPowerDisk(steps int) *powerDisk {
	return &powerDisk{data: map[string]string{"house": oldText}, safe: map[string]string{"house": oldText}, names: map[string]string{"house": "house"}, left: steps}
}

func (d *powerDisk) step() error {
	if d.left--; d.left < 0 {
		return errStopped
	}
	return nil
}

func (d *powerDisk) Temp(string) (string, tempFile, error) { return "tmp", powerFile{d}, d.step() }

func (d *powerDisk) Rename(from, to string) error {
	if err := d.step(); err != nil {
		return err
	}
	d.renamed = [2]string{from, to}
	return nil
}

func (d *powerDisk) SyncDir(string) error {
	if err := d.step(); err != nil {
		return err
	}
	d.names[d.renamed[1]] = d.renamed[0]
	return nil
}

func (d *powerDisk) Remove(string) error { return d.step() }

// after gives every text that the house file may have after a power cut.
func (d *powerDisk) after() []string {
	out := []string{d.safe[d.names["house"]]}
	if d.renamed[1] == "house" {
		out = append(out, d.safe[d.renamed[0]], d.data[d.renamed[0]])
	}
	return out
}

type powerFile struct{ d *powerDisk }

func (f powerFile) Write(p []byte) (int, error) {
	for i := range p {
		if i%20 == 0 {
			if err := f.d.step(); err != nil {
				return i, err
			}
		}
		f.d.data["tmp"] += string(p[i])
	}
	return len(p), nil
}

func (f powerFile) Chmod(fs.FileMode) error { return f.d.step() }
func (f powerFile) Close() error            { return f.d.step() }
func (f powerFile) Sync() error {
	if err := f.d.step(); err != nil {
		return err
	}
	f.d.safe["tmp"] = f.d.data["tmp"]
	return nil
}

// torn counts the texts after a power cut at any step that are neither the old
// nor the new house, and what the last one may have.
func torn(write func(disk) error) (broken int, last []string) {
	for steps := 0; ; steps++ {
		d := newPowerDisk(steps)
		err := write(d)
		last = d.after()
		for _, text := range last {
			if text != oldText && text != newText {
				broken++
			}
		}
		if err == nil {
			return broken, last
		}
	}
}

func TestPowerCutAtEveryStep(t *testing.T) {
	broken, last := torn(func(d disk) error { return replaceFile(d, "house", newText, 0o644) })
	require.Zero(t, broken)
	for _, text := range last {
		require.Equal(t, newText, text, "what was reported saved is saved")
	}
	// The model sees what is wrong with writing carelessly: a rename before the
	// text is safe, and a rename that is not made safe itself.
	broken, _ = torn(func(d disk) error {
		name, f, err := d.Temp("")
		if err == nil {
			_, err = f.Write([]byte(newText))
		}
		if err == nil {
			err = d.Rename(name, "house")
		}
		if err == nil {
			err = d.SyncDir("")
		}
		return err
	})
	require.Positive(t, broken)
	_, last = torn(func(d disk) error {
		name, f, err := d.Temp("")
		if err == nil {
			err = fill(f, newText, 0o644)
		}
		if err == nil {
			err = d.Rename(name, "house")
		}
		return err
	})
	require.Contains(t, last, oldText)
}
