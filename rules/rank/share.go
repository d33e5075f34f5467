package rank

// draws is how many weightings the shares rest on. A count of 4,000 has a
// standard error of at most sqrt(0.5*0.5/4000), 0.8 points of 100; the words
// made from it are 20 points wide.
const draws = 4000

// Share says in how much of a set of weightings an option wins.
type Share struct {
	ID string
	// Share is 0 to 1; over all options of an answer they add up to 1.
	Share float64
}

// Shares gives the share of the weightings in which each option of the
// winner's tier wins, in the order given (first-rank acceptability: Lahdelma,
// Hokkanen & Salminen, EJOR 106, 1998). The weightings are drawn from all that
// keep the order of the levels. A share is no probability of being right: it
// says how much hangs on the weights alone. Options level in a draw split it
// evenly. ErrNoContender, ErrLength, ErrLevel, and as Winner.
func Shares(options []Option, levels []float64) ([]Share, error) {
	tier, err := levelled(options, levels)
	if err != nil {
		return nil, err
	}
	shares, leaders := make([]Share, len(tier)), make([]int, 0, len(tier))
	for i, o := range tier {
		shares[i].ID = o.ID
	}
	d := newDrawer(levels)
	for range draws {
		weights, best := d.next(), -1.0
		for i := range tier {
			switch points := total(weights, tier[i].Values); {
			case points > best+scoreGrain:
				best, leaders = points, append(leaders[:0], i)
			case points >= best-scoreGrain:
				leaders = append(leaders, i)
			}
		}
		for _, i := range leaders {
			shares[i].Share += 1 / float64(draws*len(leaders))
		}
	}
	return shares, nil
}
