package chart

// Glyphs is a set of drawing signs, each one column wide. There are two:
// ASCII and Unicode. The fields are closed so that no third set can appear in
// which two kinds of layer look alike.
type Glyphs struct {
	bar, second     string // of the first series, and of the other
	base, limit     string // the two lines of the months
	up, down        string // toward the inside, toward the outside
	board           string // layers of a section, in the order of Kind
	fiber, retarder string
	sheathing       string
	cladding, gap   string
	concrete        string
}

// ASCII is the set for terminals and fonts that have nothing else.
func ASCII() Glyphs {
	return Glyphs{
		bar: "#", second: ":",
		base: "-", limit: ".",
		up: "^", down: "v",
		board: "=", fiber: "~", retarder: "-", sheathing: "#",
		cladding: "/", gap: " ", concrete: "o",
	}
}

// Unicode is the set with line and block characters. It keeps to signs that
// common console fonts have: no emoji, no Braille patterns.
func Unicode() Glyphs {
	return Glyphs{
		bar: "█", second: "░",
		base: "─", limit: "╌",
		up: "↑", down: "↓",
		board: "═", fiber: "≈", retarder: "─", sheathing: "▓",
		cladding: "▌", gap: " ", concrete: "▒",
	}
}

// layer gives the sign of a kind of layer; a kind that does not exist has
// none, and its name alone has to do.
func (g Glyphs) layer(k Kind) string {
	signs := [...]string{
		g.board, g.fiber, g.retarder, g.sheathing,
		g.cladding, g.gap, g.concrete,
	}
	if k < 0 || int(k) >= len(signs) {
		return " "
	}
	return signs[k]
}
