package catalog

import (
	"slices"
	"strconv"
)

// recordKind is what is done alike with every kind of record: it is gathered
// from several files, laid over by a person's own, and told apart by its id.
type recordKind struct {
	add    func(to, from *records)
	lay    func(over, own *records, say tell)
	unique func(k *checker, r *records)
}

// tell notes for the report what an overlay did with a record.
type tell func(what, id string, removed bool)

// recordKinds is every kind of record that an overlay may hold, in the order
// the report names them.
var recordKinds = []recordKind{
	listed("material", func(r *records) *[]Material { return &r.Materials }, func(x Material) (string, bool) { return x.ID, x.Remove }),
	listed("product", func(r *records) *[]Product { return &r.Products }, func(x Product) (string, bool) { return x.ID, x.Remove }),
	listed("price", func(r *records) *[]Price { return &r.Prices }, func(x Price) (string, bool) { return x.Product, x.Remove }),
	listed("facing", func(r *records) *[]Facing { return &r.Facings }, func(x Facing) (string, bool) { return x.ID, x.Remove }),
	listed("place", func(r *records) *[]PlaceKind { return &r.Kinds }, func(x PlaceKind) (string, bool) { return x.ID, x.Remove }),
	listed("danger", func(r *records) *[]Danger { return &r.Dangers }, func(x Danger) (string, bool) { return x.ID, false }),
	listed("drawing", func(r *records) *[]Drawing { return &r.Drawings }, func(x Drawing) (string, bool) { return x.ID, false }),
	listed("sheathing", func(r *records) *[]Sheet { return &r.Sheathings }, func(x Sheet) (string, bool) { return x.ID, x.Remove }),
	listed("cladding", func(r *records) *[]Sheet { return &r.Claddings }, func(x Sheet) (string, bool) { return x.ID, x.Remove }),
	listed("size", func(r *records) *[]Size { return &r.Sizes }, func(x Size) (string, bool) { return x.ID, x.Remove }),
	listed("share", func(r *records) *[]Share { return &r.Shares }, func(x Share) (string, bool) { return x.Element + "/" + x.Practice, false }),
	listed("clearance", func(r *records) *[]Clearance { return &r.Clearances }, func(x Clearance) (string, bool) { return x.ID, false }),
	listed("criterion", func(r *records) *[]Criterion { return &r.Criteria }, func(x Criterion) (string, bool) { return x.ID, x.Remove }),
	listed("source", func(r *records) *[]Source { return &r.Sources }, func(x Source) (string, bool) { return x.ID, x.Remove }),
	listed("word", func(r *records) *[]Word { return &r.Words }, func(x Word) (string, bool) { return x.Term, x.Remove }),
	listed("help", func(r *records) *[]Help { return &r.Helps }, func(x Help) (string, bool) { return x.Key, x.Remove }),
	listed("fuel", func(r *records) *[]Fuel { return &r.Fuels }, func(x Fuel) (string, bool) { return x.ID, x.Remove }),
	listed("fact", func(r *records) *[]FactRecord { return &r.Facts }, func(x FactRecord) (string, bool) { return x.Name, false }),
	listed("rule", func(r *records) *[]RuleRecord { return &r.Rules }, func(x RuleRecord) (string, bool) { return x.ID, x.Remove }),
	listed("figure", func(r *records) *[]Figure { return &r.Figures }, func(x Figure) (string, bool) { return x.ID, x.Remove }),
	listed("stud", func(r *records) *[]Stud { return &r.Studs }, func(x Stud) (string, bool) { return strconv.FormatFloat(x.WallFt, 'g', -1, 64), x.Remove }),
	listed("gear", func(r *records) *[]Gear { return &r.Gear }, func(x Gear) (string, bool) { return x.ID, x.Remove }),
	listed("acceptance point", func(r *records) *[]AcceptancePoint { return &r.Points }, func(x AcceptancePoint) (string, bool) { return x.ID, x.Remove }),
	listed("grade", func(r *records) *[]GradeRecord { return &r.Grades }, func(x GradeRecord) (string, bool) { return x.ID, x.Remove }),
	listed("contract item", func(r *records) *[]ContractItem { return &r.Contract }, func(x ContractItem) (string, bool) { return x.ID, x.Remove }),
	listed("label item", func(r *records) *[]LabelItem { return &r.Labels }, func(x LabelItem) (string, bool) { return x.ID, x.Remove }),
	listed("lead", func(r *records) *[]Lead { return &r.Leads }, func(x Lead) (string, bool) { return x.ID, x.Remove }),
	listed("handover note", func(r *records) *[]HandoverNote { return &r.Notes }, func(x HandoverNote) (string, bool) { return x.ID, x.Remove }),
	listed("porous", func(r *records) *[]porous { return &r.Porous }, func(x porous) (string, bool) { return x.ID, x.Remove }),
	listed("membrane", func(r *records) *[]membrane { return &r.Membranes }, func(x membrane) (string, bool) { return x.ID, x.Remove }),
	listed("cavity", func(r *records) *[]cavity { return &r.Cavities }, func(x cavity) (string, bool) { return x.ID, x.Remove }),
	listed("damp section", func(r *records) *[]DampSection { return &r.Sections }, func(x DampSection) (string, bool) { return x.ID, x.Remove }),
	listed("damp board", func(r *records) *[]DampBoard { return &r.Boards }, func(x DampBoard) (string, bool) { return x.ID, x.Remove }),
	listed("damp cover", func(r *records) *[]DampCover { return &r.Covers }, func(x DampCover) (string, bool) { return x.ID, x.Remove }),
	listed("damp way", func(r *records) *[]DampWay { return &r.Ways }, func(x DampWay) (string, bool) { return x.ID, x.Remove }),
	single("damp_verdict", func(r *records) **DampVerdict { return &r.Verdict }),
	single("damp", func(r *records) **DampFigures { return &r.Damp }),
	single("acceptance_limits", func(r *records) **AcceptanceLimits { return &r.Limits }),
	single("lumber", func(r *records) **Lumber { return &r.Lumber }),
	single("foam", func(r *records) **Foam { return &r.Foam }),
	single("settings", func(r *records) **Settings { return &r.Settings }),
}

// listed is a kind with many records. One of an overlay replaces the record of
// its id, adds one or, marked so, removes it.
func listed[T any](name string, list func(*records) *[]T, key func(T) (id string, remove bool)) recordKind {
	return recordKind{
		add: func(to, from *records) { *list(to) = append(*list(to), *list(from)...) },
		lay: func(over, own *records, say tell) {
			out := slices.Clone(*list(over))
			for _, x := range *list(own) {
				id, remove := key(x)
				at := slices.IndexFunc(out, func(b T) bool { k, _ := key(b); return k == id })
				switch {
				case remove && at >= 0:
					out = slices.Delete(out, at, at+1)
				case remove:
					continue
				case at >= 0:
					out[at] = x
				default:
					out = append(out, x)
				}
				say(name, id, remove)
			}
			*list(over) = out
		},
		unique: func(k *checker, r *records) {
			seen := map[string]bool{}
			for _, x := range *list(r) {
				id, _ := key(x)
				if id == "" {
					k.bad("%s without an id", name)
				}
				if seen[id] {
					k.bad("%s %s is there twice", name, id)
				}
				seen[id] = true
			}
		},
	}
}

// single is a table that is there once; one of an overlay replaces it.
func single[T any](name string, table func(*records) **T) recordKind {
	add := func(to, from *records) {
		if t := *table(from); t != nil {
			*table(to) = t
		}
	}
	return recordKind{
		add: add,
		lay: func(over, own *records, say tell) {
			add(over, own)
			if *table(own) != nil {
				say("table", name, false)
			}
		},
		unique: func(*checker, *records) {},
	}
}
