package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// What was counted, or leaves the program, before the year was worked out is made
// again with it: no file and no order keeps a verdict that is not worked out.
func TestNothingKeepsAPlanThatIsNotSettled(t *testing.T) {
	if testing.Short() {
		t.Skip("years of weather")
	}
	a := fixture.Judged(t, fixture.OfPlaces(t, "state = \"VT\"\ncounty = \"Chittenden\"", "id = \"walls\"\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\nci_r = 5"))
	s, _ := Begin(Config{List: a.List, House: a.House})
	s.settledPlan()
	q, ok := s.List.Find("place.cladding")
	require.True(t, ok)
	s.Answer(q, &s.House.Places[0], house.Text("direct"))
	require.False(t, s.Settled())
	early := s.Order().Places[0].Damp
	s.TakePlan(s.Ahead()(), s.Edits)
	require.True(t, s.Settled())
	require.NotEqual(t, early, s.Order().Places[0].Damp, "it was of the siding before")
	require.Equal(t, s.Plan.Places[0].Choice.Damp, s.Order().Places[0].Damp)
	s.Answer(q, &s.House.Places[0], house.Text("vented"))
	require.True(t, s.Job().Plan.Places[0].Choice.Damp.Judged())
	require.True(t, s.Settled())
}
