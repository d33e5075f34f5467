package tui

import (
	"context"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// A second signal ends the program even where the first waits for a disk that
// never answers.
func TestTheSecondSignalWaitsForNothing(t *testing.T) {
	in, keys := io.Pipe()
	disk := stalled{fixture.NewMemory(), make(chan struct{})}
	ctx, first := context.WithCancel(context.Background())
	hurry := make(chan struct{})
	c := Config{List: fixture.List(t), Store: nil, House: demoHouse(t), Mono: true, In: in, Out: io.Discard}
	ended := make(chan error, 1)
	go func() {
		ended <- runWith(ctx, hurry, c, func(m *Model) { m.s.Store = disk; m.s.Edits++; m.s.Saved = false })
	}()
	_, err := keys.Write([]byte(" ")) // taken once the program reads, so it is set up
	require.NoError(t, err)
	first()
	close(hurry)
	require.ErrorIs(t, <-ended, ErrHurried)
	keys.Close()
	close(disk.go_)
}
