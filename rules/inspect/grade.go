package inspect

import (
	"fmt"
	"math"

	"battwright/rules/catalog"
	"battwright/rules/heat"
)

// Fitting is how a blanket was fitted: shares of the area, 0 to 1, and the
// share of the depth left where it is squeezed.
type Fitting struct {
	Void, Squeezed, DepthLeft float64
}

// GradeOf gives the best grade that a fitting still reaches. None is the grade
// heat.Ungraded: more gaps than the last grade allows, which counts as no
// insulation at all. The error wraps ErrNumber.
func GradeOf(grades []catalog.GradeRecord, f Fitting) (heat.Grade, error) {
	for _, v := range []float64{f.Void, f.Squeezed, f.DepthLeft} {
		if math.IsNaN(v) || v < 0 || v > 1 {
			return heat.Ungraded, fmt.Errorf("%w: a share is %v, want 0 to 1", ErrNumber, v)
		}
	}
	for _, g := range grades {
		deep := f.Squeezed == 0 || f.DepthLeft >= g.DepthLeftMin
		if f.Void <= g.VoidMax && f.Squeezed <= g.SqueezedMax && deep {
			return heat.Grade(g.Number), nil
		}
	}
	return heat.Ungraded, nil
}

// gradeIn is the grade of a fitting; gaps so small that the best grade lets them pass
// are none. A share that cannot be has no grade.
func gradeIn(c *catalog.Catalog, f Fitting) heat.Grade {
	a := c.Acceptance()
	if f.Void <= a.Limits.TinyGap {
		f.Void = 0
	}
	g, _ := GradeOf(a.Grades, f)
	return g
}

// gradeName is the word of a grade.
func gradeName(c *catalog.Catalog, g heat.Grade) string {
	for _, r := range c.Acceptance().Grades {
		if r.Number == int(g) {
			return "grade " + r.ID
		}
	}
	return "no grade"
}

// agreedGrade is the grade that a plan counts on: the one whose gaps are those
// the plan takes for granted.
func agreedGrade(c *catalog.Catalog, voidShare float64) heat.Grade {
	for _, r := range c.Acceptance().Grades {
		if voidShare <= r.VoidMax+1e-12 {
			return heat.Grade(r.Number)
		}
	}
	return heat.Ungraded
}

// The answer of a bid about the grade of the work, and what is asked for.
const (
	gradeKey  = "grade"
	bestGrade = "I"
)
