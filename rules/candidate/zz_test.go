package candidate
import ("testing";"fmt")
func TestZZ(t *testing.T) {
	r := assess(t, book(t), cold, "kind = \"crawl-space\"\nvented = true\nframing.size = \"2x8\"\ntarget_r = 25")
	f,_ := Fit(r.Surface, book(t))
	for _, b := range f { if b.Material.ID=="fiberglass" { fmt.Print(b.CostUSD, " ", b.CavityR, " "); for _, l := range b.Layers {fmt.Print(l.Product.ID," ")}; fmt.Println() } }
	r = assess(t, book(t), "zone=\"5A\"", "kind = \"crawl-space\"\nvented = false\nfoam_r = 0")
	fmt.Printf("%+v\n", r.Surface.Frame)
	f,_ = Fit(r.Surface, book(t))
	for _, b := range f { fmt.Print(b.CostUSD, " ", b.CavityR, " "); for _, l := range b.Layers {fmt.Print(l.Product.ID," ")}; fmt.Println() } 
}
