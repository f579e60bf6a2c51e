package measure

// A unit is worth scale/per counts of its dimension.
type unit struct {
	name       string
	dim        Dim
	scale, per float64
}

const (
	poundMass  = 0.45359237                 // kg, exact (international yard and pound agreement, 1959)
	poundForce = 4.4482216152605            // N: the pound times standard gravity 9.80665 m/s² (3rd CGPM, 1901)
	nmPerMetre = float64(1000 * Millimetre) // counts
	nmPerFoot  = float64(Foot)              // counts
	sqFoot     = nmPerFoot * nmPerFoot      // nm², exact in a float64
	cuFoot     = sqFoot * nmPerFoot         // nm³
	sqInch     = float64(Inch) * float64(Inch)
	cuInch     = sqInch * float64(Inch)
)

var (
	bare    = unit{"", DimNone, 1, 1}
	inches  = unit{`"`, DimLength, float64(Inch), 1}
	feet    = unit{`'`, DimLength, nmPerFoot, 1}
	degrees = unit{"°", DimAngle, float64(Degree), 1}
	percent = unit{"%", DimNone, 1, 100}
	dollars = unit{"$", DimMoney, float64(Dollar), 1}
)

// unitWord returns the unit a word names. The word in is not one of them: the
// design file needs it for "5" in from", "in front of" and the slope "3 in 12".
func unitWord(word string) (unit, bool) {
	switch word {
	case "inch", "inches":
		return inches, true
	case "ft", "foot", "feet":
		return feet, true
	case "mm":
		return unit{word, DimLength, float64(Millimetre), 1}, true
	case "cm":
		return unit{word, DimLength, 10 * float64(Millimetre), 1}, true
	case "m":
		return unit{word, DimLength, nmPerMetre, 1}, true
	case "deg", "degree", "degrees":
		return degrees, true
	case "lb":
		return unit{word, DimMass, poundMass, 1}, true
	case "kg":
		return unit{word, DimMass, 1, 1}, true
	case "lbf":
		return unit{word, DimForce, poundForce, 1}, true
	case "N":
		return unit{word, DimForce, 1, 1}, true
	case "psf":
		return unit{word, DimPressure, poundForce, sqFoot}, true
	case "kPa":
		return unit{word, DimPressure, 1000, nmPerMetre * nmPerMetre}, true
	case "plf":
		return unit{word, DimForcePerLength, poundForce, nmPerFoot}, true
	case "sq in":
		return unit{word, DimArea, sqInch, 1}, true
	case "sq ft":
		return unit{word, DimArea, sqFoot, 1}, true
	case "sq m":
		return unit{word, DimArea, nmPerMetre * nmPerMetre, 1}, true
	case "cu in":
		return unit{word, DimVolume, cuInch, 1}, true
	case "cu ft":
		return unit{word, DimVolume, cuFoot, 1}, true
	case "cu m":
		return unit{word, DimVolume, nmPerMetre * nmPerMetre * nmPerMetre, 1}, true
	}
	return unit{}, false
}

// IsUnit reports whether word is a unit, so that no name may be spelled so.
func IsUnit(word string) bool {
	_, ok := unitWord(word)
	return ok
}

// unitMark returns the unit a sign stands for. Typographic marks are read too:
// word processors put them in.
func unitMark(r rune) (unit, bool) {
	switch r {
	case '"', '″', '”', '“':
		return inches, true
	case '\'', '′', '’', '‘':
		return feet, true
	case '°':
		return degrees, true
	case '%':
		return percent, true
	}
	return unit{}, false
}

// vulgar returns the fraction a single sign stands for.
func vulgar(r rune) (num, den float64, ok bool) {
	switch r {
	case '½':
		return 1, 2, true
	case '⅓':
		return 1, 3, true
	case '⅔':
		return 2, 3, true
	case '¼':
		return 1, 4, true
	case '¾':
		return 3, 4, true
	case '⅛':
		return 1, 8, true
	case '⅜':
		return 3, 8, true
	case '⅝':
		return 5, 8, true
	case '⅞':
		return 7, 8, true
	}
	return 0, 0, false
}
