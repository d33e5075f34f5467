package pages_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// A day that lies behind is not named as one that is due.
func TestCalendarSaysWhatIsPast(t *testing.T) {
	day := func(d int) time.Time { return time.Date(2027, 5, d, 0, 0, 0, 0, time.UTC) }
	text := func(today time.Time) string {
		out, err := planned.Handed(pages.Handover{Job: planned.Job(fixture.Demo(t, demo.Default)), Drywall: day(10), Today: today}, planned.Options(t))
		require.NoError(t, err)
		return out
	}
	require.NotContains(t, text(time.Time{}), "ALREADY PAST")
	all := strings.Count(text(day(1).AddDate(1, 0, 0)), "ALREADY PAST")
	some := strings.Count(text(day(9)), "ALREADY PAST")
	require.Greater(t, all, some, "what comes after the drywall is not past yet")
	require.Positive(t, some)
}
