package catalog

import (
	"slices"

	"battwright/rules/units"
)

// Spread is a figure with its low and high ends, as written in data/.
type Spread = units.Range[float64]

// Irritant is one thing in a material that can bother skin or lungs. Points
// are said to be points: there is no unit for an itch.
type Irritant struct {
	Name   string  `toml:"name,required"`
	Points float64 `toml:"points,required"`
}

// Material is one of the fibers.
type Material struct {
	ID            string     `toml:"id,required"`
	Name          string     `toml:"name,required"`
	Remove        bool       `toml:"remove"`
	Noncombust    bool       `toml:"noncombustible"` // by ASTM E136 when unfaced
	Absorbent     bool       `toml:"absorbent"`      // takes up liquid water
	MineralFiber  bool       `toml:"mineral_fiber"`
	Natural       bool       `toml:"natural"`
	StaysC        float64    `toml:"stays_in_place_c"`
	BurnableMJKg  float64    `toml:"burnable_mj_kg"`
	DensityKgM3   float64    `toml:"density_kg_m3"`
	UptakeKgM2    Spread     `toml:"uptake_kg_m2"` // liquid water, short immersion
	BufferGM2In   float64    `toml:"buffer_g_m2_per_in"`
	GainSTC35     Spread     `toml:"gain_stc_3_5"`
	GainSTC55     Spread     `toml:"gain_stc_5_5"`
	LoftShare     float64    `toml:"loft_share"` // share of label thickness at the low end
	HardToFind    bool       `toml:"hard_to_find"`
	Irritants     []Irritant `toml:"irritant"`
	IrritantHigh  float64    `toml:"irritant_high"`
	GearUSDPerFt2 float64    `toml:"gear_usd_ft2"`
	Damp          string     `toml:"damp"` // what it is in the hourly check of damp; empty: by its own id
	Ref
}

// IrritantPoints adds up the points of a material.
func (m Material) IrritantPoints() float64 {
	sum := 0.0
	for _, i := range m.Irritants {
		sum += i.Points
	}
	return sum
}

// Product is a generic blanket: a fiber, an R on the bag, a label thickness.
type Product struct {
	ID          string    `toml:"id,required"`
	Remove      bool      `toml:"remove"`
	Material    string    `toml:"material,required"`
	Form        string    `toml:"form,required"` // batt or roll
	NominalR    float64   `toml:"nominal_r,required"`
	ThicknessIn float64   `toml:"thickness_in,required"`
	Facings     []string  `toml:"facings,required"`
	WidthsIn    []float64 `toml:"widths_in,required"`
	LengthsIn   []float64 `toml:"lengths_in,required"`
	Pieces      int       `toml:"pieces_per_package"`
	Ref
}

// Has reports whether the product is sold with the facing.
func (p Product) Has(facing string) bool {
	for _, f := range p.Facings {
		if f == facing {
			return true
		}
	}
	return false
}

// Price is what one square foot (usd_ft2) or one piece (usd_each) costs.
type Price struct {
	Product string  `toml:"product,required"`
	Remove  bool    `toml:"remove"`
	Low     float64 `toml:"low,required"`
	Typical float64 `toml:"typical,required"`
	High    float64 `toml:"high,required"`
	Unit    string  `toml:"unit,required"`
	Year    int     `toml:"year,required"`
	Ref
}

// USD gives the price as a range of dollars per unit.
func (p Price) USD() units.Range[float64] {
	return units.Range[float64]{Low: p.Low, Typical: p.Typical, High: p.High}
}

// Facing is a retarder, on the blanket or beside it.
type Facing struct {
	ID           string  `toml:"id,required"`
	Name         string  `toml:"name,required"`
	Remove       bool    `toml:"remove"`
	Class        string  `toml:"class"`
	BurnableMJM2 float64 `toml:"burnable_mj_m2"`
	OnBlanket    bool    `toml:"on_blanket"`
	Price        string  `toml:"price"`
	Damp         string  `toml:"damp"` // the membrane it is in the hourly check of damp
	Perm         float64 `toml:"perm"` // US perms, whatever the humidity, where no membrane is like it
	Ref
}

// Layer is one layer of a place. What a layer is that the answers or the plan fill
// in, they say.
type Layer struct {
	Role LayerRole   `toml:"role,required"`
	Name units.Prose `toml:"name"`
	R    float64     `toml:"r"`
	Damp []DampLayer `toml:"damp"` // what it is in the hourly check of damp
}

// LayerRole is what a layer is in its place.
type LayerRole string

// The roles.
const (
	RoleFinish    LayerRole = "finish"    // drywall; not there where the blanket stays visible
	RoleLining    LayerRole = "lining"    // other cover on the room side
	RoleBlanket   LayerRole = "blanket"   // with its face or sheet
	RoleSheathing LayerRole = "sheathing" // as answered
	RoleBoard     LayerRole = "board"     // foam, there or to buy
	RoleBearer    LayerRole = "bearer"    // wood or board that bears or closes the place
	RoleConcrete  LayerRole = "concrete"
	RoleWrap      LayerRole = "wrap"
	RoleCladding  LayerRole = "cladding" // as answered
)

var layerRoles = []string{
	string(RoleFinish), string(RoleLining), string(RoleBlanket), string(RoleSheathing), string(RoleBoard),
	string(RoleBearer), string(RoleConcrete), string(RoleWrap), string(RoleCladding),
}

// named reports whether a layer has a name of its own.
func (l Layer) named() bool {
	return l.Role != RoleBlanket && l.Role != RoleSheathing && l.Role != RoleCladding
}

// HasLayer reports whether places of the kind have a layer of that role.
func (k PlaceKind) HasLayer(role LayerRole) bool {
	return slices.ContainsFunc(k.Layers, func(l Layer) bool { return l.Role == role })
}

// Sheet is a sheathing or a cladding.
type Sheet struct {
	ID     string      `toml:"id,required"`
	Name   units.Prose `toml:"name,required"`
	Remove bool        `toml:"remove"`
	R      float64     `toml:"r"`
	Damp   []DampLayer `toml:"damp"` // what it is in the hourly check of damp
	Ref
}

// Foam is the board other insulation is made of where the target needs it.
type Foam struct {
	Name   string     `toml:"name,required"`
	Behind FoamBehind `toml:"behind,required"`
	Ref
}

// FoamBehind is the board that goes on concrete before a blanket does, by
// climate zone: fiber straight on concrete gets wet.
type FoamBehind struct {
	ByZone []FoamZone `toml:"by_zone,required"`
	Ref
}

// FoamZone is the R of that board up to and in a zone, 0 to 8.
type FoamZone struct {
	ToZone int     `toml:"to_zone,required"`
	R      float64 `toml:"r,required"`
}

// LeastR is the R of the board for a zone, 0 to 8; beyond the last row, that
// row's.
func (f FoamBehind) LeastR(zone int) float64 {
	r := 0.0
	for _, row := range f.ByZone {
		if r = row.R; zone <= row.ToZone {
			break
		}
	}
	return r
}

// Size is a nominal lumber size.
type Size struct {
	ID      string  `toml:"id,required"`
	Remove  bool    `toml:"remove"`
	DepthIn float64 `toml:"depth_in,required"`
}

// Clearance is the air that must stay empty beside a kind of chimney, to the
// wood and to every blanket. A kind may have several, for its sides and back.
type Clearance struct {
	ID      string  `toml:"id,required"`
	Chimney string  `toml:"chimney,required"` // a value of the fact "chimney"
	Text    string  `toml:"text,required"`    // what it is the distance of
	Inches  float64 `toml:"inches,required"`
	Ref
}

// Share is the share of a surface that is wood, by spacing.
type Share struct {
	Element   string         `toml:"element,required"`
	Practice  string         `toml:"practice,required"`
	BySpacing []SpacingShare `toml:"by_spacing,required"`
	Ref
}

// SpacingShare is one cell of a Share.
type SpacingShare struct {
	SpacingIn float64 `toml:"spacing_in,required"`
	Share     float64 `toml:"share,required"`
}

// Lumber is what all framing has in common.
type Lumber struct {
	ThicknessIn float64 `toml:"thickness_in,required"`
	RPerIn      float64 `toml:"wood_r_per_in,required"`
	Ref
}

// CurvePoint is one anchor of a value scale.
type CurvePoint struct {
	At    float64 `toml:"at,required"`
	Value float64 `toml:"value,required"`
}

// CriterionPart is one of several quantities a priority measures.
type CriterionPart struct {
	ID        string       `toml:"id,required"`
	Weight    float64      `toml:"weight,required"`
	WeightWet *float64     `toml:"weight_wet"`
	Unit      string       `toml:"unit"`
	Curve     []CurvePoint `toml:"curve,required"`
}

// AlarmUnit is that of a part which is 1 where the year of the damp check gets a place
// wet or moldy, and 0 where nothing of the kind is found.
const AlarmUnit = "alarm"

// Criterion is one priority: what it measures and its fixed scale.
type Criterion struct {
	ID              string          `toml:"id,required"`
	Name            string          `toml:"name,required"`
	Remove          bool            `toml:"remove"`
	Measures        units.Prose     `toml:"measures,required"`
	Unit            string          `toml:"unit"`
	Curve           []CurvePoint    `toml:"curve"`
	CurveInstaller  []CurvePoint    `toml:"curve_installer"`
	InstallerFactor float64         `toml:"installer_factor"`
	Parts           []CriterionPart `toml:"part"`
	WetPlaces       []string        `toml:"wet_places"`
	Ref
}

// Settings are the single figures that rule the calculation.
type Settings struct {
	AboutEqual      float64 `toml:"about_equal_points,required"`
	VoidSelf        float64 `toml:"void_share_self,required"`
	VoidChecked     float64 `toml:"void_share_checked,required"`
	MaxSqueeze      float64 `toml:"max_squeeze,required"`
	GapOKIn         float64 `toml:"gap_ok_in,required"`
	SavingsLow      float64 `toml:"savings_low,required"`
	SavingsHigh     float64 `toml:"savings_high,required"`
	EmptyCavityR    float64 `toml:"empty_cavity_r"`
	OldRPerIn       float64 `toml:"old_blanket_r_per_in"`
	OldKgM3         float64 `toml:"old_blanket_kg_m3"`
	CeilingLbThin   float64 `toml:"ceiling_lb_ft2_half_inch_24"`
	CeilingLbStrong float64 `toml:"ceiling_lb_ft2_strong"`
	HeatingC        float64 `toml:"heating_c"`
	CoolingC        float64 `toml:"cooling_c"`
	SoilAmpShare    float64 `toml:"soil_amplitude_share"`
	CoolAboveC      float64 `toml:"cool_above_c"`
	RHCapCooled     float64 `toml:"rh_cap_cooled"`
	RHCap           float64 `toml:"rh_cap"`
	RHDehumidified  float64 `toml:"rh_dehumidified"`
	UnderJoistsPerm float64 `toml:"under_joists_perm"` // most that the layer under the joists of a vented crawl space lets through
	Ref
}

// Source is where figures are from.
type Source struct {
	ID     string `toml:"id,required"`
	Title  string `toml:"title,required"`
	Where  string `toml:"where"`
	Known  Known  `toml:"known"`
	Remove bool   `toml:"remove"`
}

// Word is an entry of the glossary.
type Word struct {
	Term    string      `toml:"term,required"`
	Also    []string    `toml:"also"`
	Meaning units.Prose `toml:"meaning,required"`
	Matters units.Prose `toml:"matters,required"`
	Remove  bool        `toml:"remove"`
	Ref
}

// Help is the longer explanation of one question, by its key.
type Help struct {
	Key    string      `toml:"key,required"`
	Why    units.Prose `toml:"why,required"`
	How    units.Prose `toml:"how"`
	Ask    units.Prose `toml:"ask"`
	Remove bool        `toml:"remove"`
}

// Fuel is what a unit of a fuel costs and how much of it becomes heat.
type Fuel struct {
	ID         string `toml:"id,required"`
	Name       string `toml:"name,required"`
	Remove     bool   `toml:"remove"`
	Unit       string `toml:"unit,required"`
	USD        Spread `toml:"usd,required"`        // dollars per unit
	Efficiency Spread `toml:"efficiency,required"` // above 1 for a heat pump
	Ref
}
