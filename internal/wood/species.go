package wood

import "scantling/internal/cite"

// Works the rows below name. Bases follow, row by row, in the order
// shrinkage, change per point, gravity and stiffness, decay, design gravity.
const (
	handbookShrinkage = "Wood Handbook, FPL-GTR-190 (2010), tables 4-3 and 4-4"
	handbookPerPoint  = "Wood Handbook, FPL-GTR-190 (2010), table 13-5"
	handbookGravity   = "Wood Handbook, FPL-GTR-190 (2010), tables 5-3b and 5-5b"
	handbookDecay     = "Wood Handbook, FPL-GTR-190 (2010), table 14-1"
	designGravity     = "AWC NDS 2018, table 12.3.3A"
)

const (
	r = cite.Read
	m = cite.Memory
	c = cite.Computed
)

// A line of the species table; see Wood for the figures.
type line struct {
	name                           string
	also                           []string // other spellings, folded
	radial, tangential, volumetric float64
	perRadial, perTangential       float64
	gravityGreen, gravityDry       float64
	stiffGreen, stiffDry, rupture  float64
	decay                          Decay
	designGravity                  float64
	designGroup                    string
	basis                          [5]cite.Basis
}

// species is the table of single species.
var species = []line{
	{"loblolly pine", []string{"southern pine loblolly"}, 4.8, 7.4, 12.3, 0.00165, 0.00259, 0.47, 0.51, 1.40, 1.79, 12800, Slight, 0.55, southernPine, [5]cite.Basis{m, m, m, m, r}},
	{"longleaf pine", []string{"southern pine longleaf"}, 5.1, 7.5, 12.2, 0.00176, 0.00263, 0.55, 0.59, 1.59, 1.98, 14500, Moderate, 0.55, southernPine, [5]cite.Basis{m, m, m, r, r}},
	{"shortleaf pine", []string{"southern pine shortleaf"}, 4.6, 7.7, 12.3, 0.00158, 0.00271, 0.47, 0.51, 1.39, 1.75, 13100, Slight, 0.55, southernPine, [5]cite.Basis{m, m, m, m, r}},
	{"slash pine", []string{"southern pine slash"}, 5.4, 7.6, 12.1, 0.00187, 0.00267, 0.54, 0.59, 1.53, 1.98, 16300, Moderate, 0.55, southernPine, [5]cite.Basis{m, m, m, r, r}},
	{"coast douglas fir", []string{"douglas fir coast"}, 4.8, 7.6, 12.4, 0.00165, 0.00267, 0.45, 0.48, 1.56, 1.95, 12400, Moderate, 0.50, douglasFir, [5]cite.Basis{r, m, r, r, r}},
	{"interior west douglas fir", []string{"douglas fir interior west"}, 4.8, 7.5, 11.8, 0.00165, 0.00263, 0.46, 0.50, 1.51, 1.83, 12600, Moderate, 0.50, douglasFir, [5]cite.Basis{r, m, m, r, r}},
	{"interior north douglas fir", []string{"douglas fir interior north"}, 3.8, 6.9, 10.7, 0.00130, 0.00241, 0.45, 0.48, 1.41, 1.79, 13100, Moderate, 0.50, douglasFir, [5]cite.Basis{r, m, m, r, r}},
	{"western hemlock", []string{"hem fir western hemlock"}, 4.2, 7.8, 12.4, 0.00144, 0.00274, 0.42, 0.45, 1.31, 1.63, 11300, Slight, 0.43, hemFir, [5]cite.Basis{m, m, r, r, r}},
	{"grand fir", []string{"hem fir grand fir"}, 3.4, 7.5, 11.0, 0.00112, 0.00245, 0.35, 0.37, 1.25, 1.57, 8900, Slight, 0.43, hemFir, [5]cite.Basis{r, m, m, m, r}},
	{"white fir", []string{"hem fir white fir"}, 3.3, 7.0, 9.8, 0.00112, 0.00245, 0.37, 0.39, 1.16, 1.50, 9800, Slight, 0.43, hemFir, [5]cite.Basis{r, m, m, m, r}},
	{"pacific silver fir", []string{"hem fir pacific silver fir"}, 4.4, 9.2, 13.0, 0.00151, 0.00327, 0.40, 0.43, 1.42, 1.76, 11000, Slight, 0.43, hemFir, [5]cite.Basis{r, m, r, m, r}},
	{"white spruce", []string{"spf white spruce"}, 4.7, 8.2, 13.7, 0.00130, 0.00274, 0.33, 0.36, 1.14, 1.43, 9400, Slight, 0.42, sprucePineFir, [5]cite.Basis{m, m, m, r, r}},
	{"lodgepole pine", []string{"spf lodgepole pine"}, 4.3, 6.7, 11.1, 0.00148, 0.00234, 0.38, 0.41, 1.08, 1.34, 9400, Slight, 0.42, sprucePineFir, [5]cite.Basis{m, m, m, r, r}},
	{"engelmann spruce", []string{"spf engelmann spruce"}, 3.8, 7.1, 11.0, 0.00130, 0.00248, 0.33, 0.35, 1.03, 1.30, 9300, Slight, 0.36, "Spruce-Pine-Fir (South)", [5]cite.Basis{m, m, r, r, r}},
	{"balsam fir", []string{"spf balsam fir"}, 2.9, 6.9, 11.2, 0.00099, 0.00241, 0.33, 0.35, 1.25, 1.45, 9200, Slight, 0.42, sprucePineFir, [5]cite.Basis{r, m, m, m, r}},
	{"western red cedar", []string{"western redcedar"}, 2.4, 5.0, 6.8, 0.00111, 0.00234, 0.31, 0.32, 0.94, 1.11, 7500, Resistant, 0.36, "Western Cedars", [5]cite.Basis{r, m, m, r, r}},
	{"northern white cedar", nil, 2.2, 4.9, 7.2, 0.00101, 0.00229, 0.29, 0.31, 0.64, 0.80, 6500, Resistant, 0.31, "Northern White Cedar", [5]cite.Basis{r, m, m, r, r}},
	{"old growth redwood", []string{"redwood old growth"}, 2.6, 4.4, 6.8, 0.00120, 0.00205, 0.38, 0.40, 1.18, 1.34, 10000, Resistant, 0.37, "Redwood", [5]cite.Basis{m, m, m, r, r}},
	{"young growth redwood", []string{"redwood young growth"}, 2.2, 4.9, 7.0, 0.00101, 0.00229, 0.34, 0.35, 0.96, 1.10, 7900, Moderate, 0.37, "Redwood", [5]cite.Basis{m, m, m, m, r}},
	{"baldcypress", []string{"bald cypress", "cypress"}, 3.8, 6.2, 10.5, 0.00130, 0.00216, 0.42, 0.46, 1.18, 1.44, 10600, Moderate, 0.43, "Baldcypress", [5]cite.Basis{m, m, m, r, m}},
	{"white oak", nil, 5.6, 10.5, 16.3, 0.00180, 0.00365, 0.60, 0.68, 1.25, 1.78, 15200, Resistant, 0.73, "White Oak", [5]cite.Basis{r, r, m, r, r}},
	{"black locust", nil, 4.6, 7.2, 10.2, 0.00158, 0.00252, 0.66, 0.69, 1.85, 2.05, 19400, VeryResistant, 0, "", [5]cite.Basis{m, r, r, r, m}},
	{"ipe", nil, 6.6, 8.0, 13.2, 0.00220, 0.00267, 0.92, 1.05, 2.92, 3.14, 25400, VeryResistant, 0, "", [5]cite.Basis{m, c, m, m, m}},
	{"teak", nil, 2.5, 5.8, 7.0, 0.00101, 0.00186, 0.55, 0.63, 1.37, 1.55, 14600, VeryResistant, 0, "", [5]cite.Basis{m, m, m, m, m}},
}

const (
	southernPine  = "Southern Pine"
	douglasFir    = "Douglas Fir-Larch"
	hemFir        = "Hem-Fir"
	sprucePineFir = "Spruce-Pine-Fir"
)

// A group is lumber sold without telling its species apart.
type group struct {
	name        string
	also        []string // other spellings, folded
	designGroup string
	gravity     float64 // design gravity, NDS table 12.3.3A
	members     []string
}

var groups = []group{
	{"southern pine", []string{"southern yellow pine", "syp"}, southernPine, 0.55,
		[]string{"loblolly pine", "longleaf pine", "shortleaf pine", "slash pine"}},
	{"douglas fir-larch", []string{"douglas fir"}, douglasFir, 0.50,
		[]string{"coast douglas fir", "interior west douglas fir", "interior north douglas fir"}},
	{"hem-fir", nil, hemFir, 0.43,
		[]string{"western hemlock", "grand fir", "white fir", "pacific silver fir"}},
	{"spruce-pine-fir", []string{"spf"}, sprucePineFir, 0.42,
		[]string{"white spruce", "lodgepole pine", "engelmann spruce", "balsam fir"}},
}

func (l line) wood() Wood {
	w := Wood{Name: l.name,
		GreenGravity: l.gravityGreen, DryGravity: l.gravityDry,
		DesignGravity: l.designGravity, DesignGroup: l.designGroup,
		Radial: l.radial, Tangential: l.tangential, Volumetric: l.volumetric,
		RadialPerPoint: l.perRadial, TangentialPerPoint: l.perTangential,
		GreenStiffness: l.stiffGreen, DryStiffness: l.stiffDry, DryRupture: l.rupture,
		Decay: l.decay,
		From: Sources{
			Shrinkage: cite.Source{Work: handbookShrinkage, Basis: l.basis[0]},
			PerPoint:  cite.Source{Work: handbookPerPoint, Basis: l.basis[1]},
			Gravity:   cite.Source{Work: handbookGravity, Basis: l.basis[2]},
			Decay:     cite.Source{Work: handbookDecay, Basis: l.basis[3]},
			Design:    cite.Source{Work: designGravity, Basis: l.basis[4]},
		}}
	if l.basis[1] == c {
		w.From.PerPoint.Work = "shrinkage over 30 points of moisture; the handbook tabulates none"
	}
	return w
}

// wood returns the group's design row with the least favourable shrinkage and
// decay of its members: the yard does not say which of them it hands over.
func (g group) wood() Wood {
	w := Wood{Name: g.name, Members: g.members, DesignGravity: g.gravity, DesignGroup: g.designGroup, Decay: VeryResistant,
		From: Sources{
			Shrinkage: cite.Source{Work: handbookShrinkage + ", the greatest of the group's species", Basis: c},
			PerPoint:  cite.Source{Work: handbookPerPoint + ", the greatest of the group's species", Basis: c},
			Gravity:   cite.Source{Work: designGravity, Basis: r},
			Decay:     cite.Source{Work: handbookDecay + ", the least of the group's species", Basis: c},
			Design:    cite.Source{Work: designGravity, Basis: r},
		}}
	for _, s := range species {
		for _, name := range g.members {
			if s.name != name {
				continue
			}
			w.Radial = max(w.Radial, s.radial)
			w.Tangential = max(w.Tangential, s.tangential)
			w.Volumetric = max(w.Volumetric, s.volumetric)
			w.RadialPerPoint = max(w.RadialPerPoint, s.perRadial)
			w.TangentialPerPoint = max(w.TangentialPerPoint, s.perTangential)
			w.Decay = min(w.Decay, s.decay)
		}
	}
	return w
}
