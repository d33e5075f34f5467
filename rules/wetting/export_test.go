package wetting

// RunWatched is Run that also tells each watched plane after each step of the
// judged run: what tests compare with measured hours.
func RunWatched(sec Section, room, out []Edge, course Course, seen func(hour, plane int, tC, rh float64)) (Result, error) {
	if err := sec.check(); err != nil {
		return Result{}, err
	}
	r := newRunner(&sec, course.Runs*len(out)/dayH)
	for i := range course.Runs {
		r.judged = i+1 == course.Runs
		for h := range out {
			if err := r.s.step(course.StepH*secPerHour, &room[h], &out[h]); err != nil {
				return Result{}, err
			}
			r.look(course.StepH, &room[h], &out[h])
			if r.judged {
				for p := range r.planes {
					tC, rh := r.s.at(r.planes[p].spot, &room[h], &out[h])
					seen(h, p, tC, rh)
				}
			}
			if (h+1)%dayH == 0 {
				r.endDay()
			}
		}
	}
	return r.result(len(out) / dayH), nil
}

// Passes is how often the balance of a step was solved in a run.
func Passes(sec Section, room, out []Edge, stepH float64) (passes, cells int, err error) {
	if err := sec.check(); err != nil {
		return 0, 0, err
	}
	r := newRunner(&sec, len(out)/dayH)
	err = r.through(room, out, stepH)
	return r.s.passes, len(r.s.cells), err
}
