package damp

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"battwright/rules/catalog"
	"battwright/rules/moisture"
	"battwright/rules/wetting"
)

// The words of a verdict. Alarm: Wets or Mold.
const (
	Holds         = "holds"
	HoldsIfSealed = "holds-if-sealed" // it wets or molds with holes
	Edge          = "edge"
	Wets          = "wets"
	Mold          = "mold"
	NotJudged     = "not-judged"
)

// Rank puts the words in order, worst last; one that is not judged compares with
// none and has 0.
func Rank(word string) int {
	return slices.Index([]string{Holds, HoldsIfSealed, Edge, Wets, Mold}, word) + 1
}

// Verdict is what a year makes of a place.
type Verdict struct {
	Word      string   // workmanlike, holes weighed in
	Built     string   // workmanlike alone
	WithHoles string   // as it stands with holes
	Why       string   // why it is not judged
	Sealed    Worst    // workmanlike
	Holed     Worst    // with holes, and beside them
	Open      []string // what nobody said and was tried in every usual way: cover, board, pitch
	Runs      int      // sections that the verdict rests on
	Year      Year
	From      []catalog.Ref
}

// Alarm reports whether it wets or molds although it is built as it should be.
func (v Verdict) Alarm() bool { return v.Word == Wets || v.Word == Mold }

// Worst is the worst of all runs, moisture and mold each where it is worst.
type Worst struct {
	Moisture     float64 // of wood, highest 30-day mean of its skin, kg/kg
	MoistureOf   string  // that wood: "OSB sheathing"; empty where it has no name
	MoistureCase string
	Mold         float64
	MoldOn       string // what it feeds on; empty where that has no name
	MoldCase     string
	Under        string // the cover that nobody said and that makes it worse than another would; empty: none
}

// Judge judges places of one catalog, and keeps the hours of stations, faces and
// rooms and every section it has run. It may be used by many at once.
type Judge struct {
	c        *catalog.Catalog
	layers   *catalog.Layers
	stations kept[wetting.Weather]
	faces    kept[face]
	sunny    kept[float64]
	rooms    kept[[]wetting.Edge]
	runs     kept[wetting.Result]
	free     chan struct{} // as many runs at once as there are processors
}

// New is a judge that knows nothing yet.
func New(c *catalog.Catalog) *Judge {
	return &Judge{c: c, layers: c.DampLayers(), free: make(chan struct{}, runtime.GOMAXPROCS(0))}
}

type judgeOfCatalog struct{}

// Of is the judge of a catalog: whoever asks again hears what was worked out.
func Of(c *catalog.Catalog) *Judge {
	return c.Once(judgeOfCatalog{}, func() any { return New(c) }).(*Judge)
}

var errUnknownPart = errors.New("the hourly check has no figures for")

// job is one section to run.
type job struct {
	name   string
	told   Case
	key    string
	apart  string // the key but for the holes: two runs that differ in nothing else share it
	sec    cut
	room   []wetting.Edge
	out    []wetting.Edge
	holed  bool
	result wetting.Result
	err    error
}

// Judge runs what a build-up has to be run for. Cancelled, it gives the error of
// the context; all else that stands in the way of a verdict is a verdict that it
// is not judged, with why.
func (j *Judge) Judge(ctx context.Context, h House, b Build) (Verdict, error) {
	jobs, why := j.jobs(h, b)
	if why != "" {
		return Verdict{Word: NotJudged, WithHoles: NotJudged, Why: why}, ctx.Err()
	}
	var all sync.WaitGroup
	for i := range jobs {
		all.Go(func() { j.run(ctx, &jobs[i]) })
	}
	all.Wait()
	if err := ctx.Err(); err != nil {
		return Verdict{}, err
	}
	v := Verdict{Runs: len(jobs), Open: b.open(j.layers, h.Indoor.Cooled), From: []catalog.Ref{j.layers.DampFigures.Ref, j.layers.DampVerdict.Ref}}
	for i := range jobs {
		if err := jobs[i].err; err != nil {
			return Verdict{Word: NotJudged, WithHoles: NotJudged, Why: err.Error()}, nil
		}
		if !jobs[i].holed {
			v.Sealed.add(&jobs[i])
		}
		v.Holed.add(&jobs[i]) // holes are not everywhere, and may dry a roof
	}
	v.Sealed.Under, v.Holed.Under = j.under(jobs, false), j.under(jobs, true)
	v.Word, v.WithHoles = j.word(v.Sealed), j.word(v.Holed)
	v.Built = v.Word
	if !v.Alarm() && (v.WithHoles == Wets || v.WithHoles == Mold) {
		v.Word = HoldsIfSealed
	}
	v.Year = j.yearOf(jobs, v.Word == HoldsIfSealed || v.Built == Holds)
	return v, nil
}

// under names the cover under which the worst was found, where another that was tried
// has a better word.
func (j *Judge) under(jobs []job, holes bool) string {
	worst, best, name := 0, 0, ""
	for _, cover := range j.c.DampCovers {
		var w Worst
		tried := false
		for i := range jobs {
			if x := &jobs[i]; (holes || !x.holed) && (x.told.Cover == cover.ID || x.told.Cover == "") {
				w.add(x)
				tried = tried || x.told.Cover != ""
			}
		}
		if !tried {
			continue
		}
		rank := Rank(j.word(w))
		if best == 0 || rank < best {
			best = rank
		}
		if rank > worst {
			worst, name = rank, string(cover.Name)
		}
	}
	if worst == best {
		return ""
	}
	return name
}

func (j *Judge) run(ctx context.Context, x *job) {
	select {
	case j.free <- struct{}{}:
		defer func() { <-j.free }()
	case <-ctx.Done():
		return
	}
	if ctx.Err() != nil {
		return
	}
	x.result, x.err = j.runs.of(x.key, func() (wetting.Result, error) {
		return wetting.Run(x.sec.Section, x.room, x.out, wetting.Course{})
	})
}

func (w *Worst) add(x *job) {
	for i, s := range x.result.Skins {
		if s.Worst > w.Moisture {
			w.Moisture, w.MoistureOf, w.MoistureCase = s.Worst, x.sec.skins[i], x.name
		}
	}
	for i, p := range x.result.Planes {
		if p.Mold > w.Mold {
			w.Mold, w.MoldOn, w.MoldCase = p.Mold, x.sec.planes[i], x.name
		}
	}
}

func (j *Judge) word(w Worst) string {
	l := j.layers.DampVerdict
	switch {
	case w.Mold >= l.Mold:
		return Mold
	case w.Moisture > l.WetsMoisture:
		return Wets
	case w.Moisture >= l.EdgeMoisture || w.Mold >= l.EdgeMold:
		return Edge
	}
	return Holds
}

// jobs lists the sections to run, or says why there are none.
func (j *Judge) jobs(h House, b Build) (jobs []job, why string) {
	switch {
	case b.NotJudged != "":
		return nil, b.NotJudged
	case len(b.Sections) == 0:
		return nil, "no section tells how such a place is built"
	case !h.HasClimate:
		return nil, cmp.Or(h.NoClimate, "no listed climate is known for the house")
	}
	for _, id := range b.Sections {
		sec, ok := j.layers.Section(id)
		switch {
		case !ok:
			return nil, fmt.Sprintf("no section %q", id)
		case h.Marine && sec.NotMarine != "":
			return nil, string(sec.NotMarine)
		case sec.Faces == catalog.FacesRoofs && b.PitchDeg != nil && *b.PitchDeg < j.layers.LeastPitchDeg:
			return nil, string(j.layers.TooFlat)
		case sec.Grade == catalog.GradeAbove && b.AboveM <= 0, sec.Grade == catalog.GradeBelow && b.AboveM >= b.HeightM && b.HeightM > 0:
			continue
		}
		more, err := j.jobsOf(h, b, &sec)
		if err != nil {
			if errors.Is(err, catalog.ErrNoHours) {
				return nil, "no hourly weather is known for " + h.Climate.Name
			}
			return nil, err.Error()
		}
		jobs = append(jobs, more...)
	}
	return distinct(jobs), ""
}

func distinct(jobs []job) []job {
	type once struct {
		key   string
		holed bool
	}
	seen := map[once]bool{}
	return slices.DeleteFunc(jobs, func(x job) bool {
		was := seen[once{x.key, x.holed}]
		seen[once{x.key, x.holed}] = true
		return was
	})
}

func (j *Judge) jobsOf(h House, b Build, sec *catalog.DampSection) ([]job, error) {
	faces, err := j.facesOf(h, sec, b.PitchDeg)
	if err != nil {
		return nil, err
	}
	var out []job
	for _, w := range b.ways(j.layers, sec, h.Indoor.Cooled) {
		list, err := b.layers(j.layers, w, sec)
		if err != nil {
			return nil, err
		}
		for _, in := range j.indoors(h, w, sec) {
			room, err := j.room(h, in)
			if err != nil {
				return nil, err
			}
			for i, leak := range b.leaks(j.layers) {
				cut, err := section(j.layers, list, leak)
				if err != nil {
					return nil, err
				}
				for _, f := range faces {
					told := caseOf(f, w, in)
					out = append(out, job{
						name: told.String(), told: told, sec: cut, room: room, out: f.out, holed: i > 0,
						key: fmt.Sprintf("%s|%g|%s|%s", list.key(), leak, f.at, roomKey(h, in)), apart: fmt.Sprintf("%s|%s|%s", list.key(), f.at, roomKey(h, in)),
					})
				}
			}
		}
	}
	return out, nil
}

// indoors are the rooms it is judged in.
func (j *Judge) indoors(h House, w way, sec *catalog.DampSection) []moisture.Indoor {
	out := []moisture.Indoor{h.Indoor}
	colder := sec.ColderRoom || w.cover != nil && w.cover.Cooled
	if h.Indoor.Cooled && colder && h.Indoor.CoolingC > j.layers.ColderRoomC {
		in := h.Indoor
		in.CoolingC = j.layers.ColderRoomC
		out = append(out, in)
	}
	return out
}

// open lists what was tried in more than one way because nobody said.
func (b *Build) open(l *catalog.Layers, cooled bool) []string {
	var out []string
	has := func(role Role) bool {
		return slices.ContainsFunc(b.Parts, func(p Part) bool { return p.Role == role })
	}
	papered := func(id string) bool { s, _ := l.Section(id); return s.Papered }
	if b.Cover == Unknown && cooled && has(Covered) && slices.ContainsFunc(b.Sections, papered) {
		out = append(out, "cover")
	}
	if b.Board == Unknown && has(Board) {
		out = append(out, "board")
	}
	roof := func(id string) bool { s, _ := l.Section(id); return s.Faces == catalog.FacesRoofs }
	if b.PitchDeg == nil && slices.ContainsFunc(b.Sections, roof) {
		out = append(out, "pitch")
	}
	return out
}
