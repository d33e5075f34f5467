package house

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/units"
)

// A quote in a house file is a table of its own, [[quote]].

func writeQuote(b *strings.Builder, q Quote) {
	b.WriteString("\n[[quote]]\n" + line("product", q.Product))
	if q.Facing != "" {
		b.WriteString(line("facing", q.Facing))
	}
	for _, k := range quoteKeys(&q) {
		if k.value == 0 {
			continue
		}
		b.WriteString(line(k.key, tomlValue(Question{Kind: NumberKind}, Number(k.value))))
		if k.key == "usd" {
			b.WriteString(line("per", q.Per))
		}
	}
}

// quotes reads the [[quote]] tables.
func (r *reader) quotes() {
	seen := map[string]int{}
	for i := range r.tablesOf("quote", "labels and prices", MaxQuotes) {
		path := []any{"quote", i}
		q, ok := r.quote(path)
		if !ok {
			continue
		}
		key := q.Product + "/" + q.Facing
		if first, twice := seen[key]; twice {
			r.bad(below(path, "product"), q.Product, fmt.Sprintf("one label for each product and face; the one on line %d has these", r.tree.Line("quote", first)))
			continue
		}
		seen[key] = i
		r.house.Quotes = append(r.house.Quotes, q)
	}
}

func (r *reader) quote(path []any) (Quote, bool) {
	before := len(r.problems)
	var q Quote
	q.Product = r.oneOf(below(path, "product"), r.productIDs(), true)
	product, _ := r.list.catalog.Product(q.Product)
	if q.Product != "" { // which faces there are hangs on it
		q.Facing = r.oneOf(below(path, "facing"), product.Facings, false)
	}
	q.Per = r.oneOf(below(path, "per"), []string{PerPackage, PerFt2}, false)
	known := []string{"product", "facing", "per"}
	for _, k := range quoteKeys(&q) {
		known = append(known, k.key)
		v, there := r.tree.Get(below(path, k.key)...)
		if !there {
			continue
		}
		one := k.question()
		a, ok := fromTOML(one, v)
		if !ok || one.Check(a) != nil {
			r.bad(below(path, k.key), v, one.Accepted()+one.hint(v))
			continue
		}
		k.to(a.Number)
	}
	for _, key := range r.tree.Keys(path...) {
		if !slices.Contains(known, key) {
			r.unknownKey(below(path, key), known)
		}
	}
	if q.Priced() && q.Per == "" {
		q.Per = PerPackage
	}
	if !q.Priced() {
		q.Per = "" // says nothing without a price
	}
	if len(r.problems) > before {
		return q, false
	}
	if err := q.Check(units.US); err != nil {
		found, want, _ := strings.Cut(strings.TrimPrefix(err.Error(), ErrAnswer.Error()+": "), "; ")
		r.add(r.tree.Problem(path, strings.TrimPrefix(found, "found "), strings.TrimPrefix(want, "want ")))
		return q, false
	}
	return q, true
}

func (r *reader) oneOf(path []any, ids []string, needed bool) string {
	v, there := r.tree.Get(path...)
	if !there && !needed {
		return ""
	}
	if s, ok := v.(string); ok && slices.Contains(ids, s) {
		return s
	}
	r.bad(path, v, "one of "+strings.Join(ids, ", ")+meant(v, ids))
	return ""
}

func (r *reader) productIDs() []string {
	var out []string
	for _, p := range r.list.catalog.Products {
		out = append(out, p.ID)
	}
	return out
}
