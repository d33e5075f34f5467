package house_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// Every question has its help, and no help is left over from a question that is
// gone or renamed.
func TestHelpKeysAreTheQuestionKeys(t *testing.T) {
	c, list := fixture.Catalog(t), fixture.List(t)
	var questions, helps []string
	for _, q := range list.Questions {
		questions = append(questions, q.FullKey())
	}
	for _, h := range c.Helps() {
		helps = append(helps, h.Key)
	}
	require.ElementsMatch(t, questions, helps)
}

// asked is how a help says whom to ask: the person, then the sentence to say.
var asked = regexp.MustCompile(`^[A-Z][^":]+: "[A-Z][^"]+\?"`)

func TestHelpIsShortAndPlain(t *testing.T) {
	c, list := fixture.Catalog(t), fixture.List(t)
	const atMost = 170 // three lines of a narrow screen
	// Words a builder should never need in order to answer; they are explained
	// in the glossary.
	jargon := regexp.MustCompile(`(?i)\b(cavity|assembly|ci|kraft|perms?|class I|U-factor|HDD|CDD|variant|frontier|o\.c\.|Grade I+|ASTM|hygroscopic)\b`)
	for _, q := range list.Questions {
		h, ok := c.Help(q.FullKey())
		require.True(t, ok, q.FullKey())
		require.NotEmpty(t, h.How, h.Key)
		for _, s := range []string{h.Why.String(), h.How.String(), h.Ask.String(), h.Why.In(units.SI), h.How.In(units.SI), h.Ask.In(units.SI)} {
			require.LessOrEqual(t, len(s), atMost, h.Key)
			require.Regexp(t, `^([A-Z0-9"][ -~]+[.?!"])?$`, s, h.Key)
			require.NotRegexp(t, jargon, s, h.Key)
			require.NotContains(t, s, "_", "%s: a key of the file shows", h.Key)
		}
		if h.Ask != "" {
			require.Regexp(t, asked, h.Ask, h.Key)
		}
		require.NotEqual(t, q.Prompt, h.Why, h.Key)
		if q.How != "" {
			require.NotEqual(t, q.How, h.How, "%s says the same twice", h.Key)
		}
	}
}

// Where an answer decides safety, the help names somebody whose trade it is:
// nobody should have to guess, and we decide nothing in their place.
func TestSafetyHelpNamesWhomToAsk(t *testing.T) {
	c, list := fixture.Catalog(t), fixture.List(t)
	trades := []string{"licensed", "contractor", "building department", "installer", "roofer", "builder", "doctor"}
	safety := 0
	for _, q := range list.Questions {
		if !q.Safety {
			continue
		}
		safety++
		h, ok := c.Help(q.FullKey())
		require.True(t, ok, q.FullKey())
		whom, _, _ := strings.Cut(h.Ask.String(), ":")
		require.True(t, slices.ContainsFunc(trades, func(trade string) bool { return strings.Contains(strings.ToLower(whom), trade) }),
			"%s asks %q", h.Key, whom)
	}
	require.Positive(t, safety)
	// Wiring, flues and asbestos are for licensed people by law or by the
	// advice of every authority (US EPA pamphlet of 2003, read; NEC and IRC as
	// adopted, common practice).
	for _, key := range []string{"place.knob_and_tube", "place.non_ic_lights", "place.vermiculite", "place.flue_through", "place.chimney", "place.clearance_in", "place.gap_in", "shape.chimney"} {
		h, ok := c.Help(key)
		require.True(t, ok, key)
		require.Contains(t, h.Ask, "licensed", key)
	}
}
