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
	shown := make(chan struct{}, 1)
	c := Config{List: fixture.List(t), Store: nil, House: demoHouse(t), Mono: true, In: in, Out: tellsOnce{shown}}
	ended := make(chan error, 1)
	go func() {
		ended <- runWith(ctx, hurry, c, func(m *Model) { m.s.store = disk; m.s.edits++; m.s.saved = false })
	}()
	<-shown
	first()
	close(hurry)
	require.ErrorIs(t, <-ended, ErrHurried)
	keys.Close()
	close(disk.go_)
}

type tellsOnce struct{ shown chan struct{} }

func (w tellsOnce) Write(p []byte) (int, error) {
	select {
	case w.shown <- struct{}{}:
	default:
	}
	return len(p), nil
}
