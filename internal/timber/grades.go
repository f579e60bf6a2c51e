package timber

import "scantling/internal/cite"

// A grade is a row of the design value tables: pounds per square inch for
// visually graded dimension lumber 2 to 4 in thick.
type grade struct {
	group, name            string
	upTo                   int // widest size it holds for, in nominal inches; 0: any, and the size factor applies
	fb, ft, fv, fcPerp, fc float64
	e, eMin                float64
	gravity                float64
	basis                  cite.Basis
}

// Southern pine: table 4B, size adjustment included (the MPa of the SFPA metric
// edition were read; the psi agree with them within rounding). Others: table 4A.
var grades = []grade{
	{"Southern Pine", "Select Structural", 4, 2350, 1650, 175, 565, 1900, 1800000, 660000, 0.55, cite.Read},
	{"Southern Pine", "Select Structural", 6, 2100, 1450, 175, 565, 1800, 1800000, 660000, 0.55, cite.Read},
	{"Southern Pine", "Select Structural", 8, 1950, 1350, 175, 565, 1700, 1800000, 660000, 0.55, cite.Read},
	{"Southern Pine", "Select Structural", 10, 1700, 1150, 175, 565, 1650, 1800000, 660000, 0.55, cite.Read},
	{"Southern Pine", "Select Structural", 12, 1600, 1100, 175, 565, 1650, 1800000, 660000, 0.55, cite.Read},
	{"Southern Pine", "No. 1", 4, 1500, 1000, 175, 565, 1650, 1600000, 580000, 0.55, cite.Read},
	{"Southern Pine", "No. 1", 6, 1350, 875, 175, 565, 1550, 1600000, 580000, 0.55, cite.Read},
	{"Southern Pine", "No. 1", 8, 1250, 800, 175, 565, 1500, 1600000, 580000, 0.55, cite.Read},
	{"Southern Pine", "No. 1", 10, 1050, 700, 175, 565, 1450, 1600000, 580000, 0.55, cite.Read},
	{"Southern Pine", "No. 1", 12, 1000, 650, 175, 565, 1400, 1600000, 580000, 0.55, cite.Read},
	{"Southern Pine", "No. 2", 4, 1100, 675, 175, 565, 1450, 1400000, 510000, 0.55, cite.Read},
	{"Southern Pine", "No. 2", 6, 1000, 600, 175, 565, 1400, 1400000, 510000, 0.55, cite.Read},
	{"Southern Pine", "No. 2", 8, 925, 550, 175, 565, 1350, 1400000, 510000, 0.55, cite.Read},
	{"Southern Pine", "No. 2", 10, 800, 475, 175, 565, 1300, 1400000, 510000, 0.55, cite.Read},
	{"Southern Pine", "No. 2", 12, 750, 450, 175, 565, 1250, 1400000, 510000, 0.55, cite.Read},
	{"Southern Pine", "No. 3 and Stud", 4, 650, 400, 175, 565, 850, 1300000, 470000, 0.55, cite.Read},
	{"Southern Pine", "No. 3 and Stud", 6, 575, 350, 175, 565, 800, 1300000, 470000, 0.55, cite.Read},
	{"Southern Pine", "No. 3 and Stud", 8, 525, 325, 175, 565, 775, 1300000, 470000, 0.55, cite.Read},
	{"Southern Pine", "No. 3 and Stud", 10, 475, 275, 175, 565, 750, 1300000, 470000, 0.55, cite.Read},
	{"Southern Pine", "No. 3 and Stud", 12, 450, 250, 175, 565, 725, 1300000, 470000, 0.55, cite.Read},
	{"Southern Pine", "Dense Select Structural", 4, 2700, 1900, 175, 660, 2050, 1900000, 690000, 0.55, cite.Memory},
	{"Southern Pine", "No. 1 Dense", 4, 1650, 1100, 175, 660, 1750, 1800000, 660000, 0.55, cite.Memory},
	{"Southern Pine", "No. 2 Dense", 4, 1200, 750, 175, 660, 1500, 1600000, 580000, 0.55, cite.Memory},
	{"Southern Pine", "Construction", 4, 875, 500, 175, 565, 1600, 1400000, 510000, 0.55, cite.Memory},
	{"Southern Pine", "Standard", 4, 475, 275, 175, 565, 1300, 1200000, 440000, 0.55, cite.Memory},
	{"Douglas Fir-Larch", "Select Structural", 0, 1500, 1000, 180, 625, 1700, 1900000, 690000, 0.5, cite.Read},
	{"Douglas Fir-Larch", "No. 1 & Btr", 0, 1200, 800, 180, 625, 1550, 1800000, 660000, 0.5, cite.Memory},
	{"Douglas Fir-Larch", "No. 1", 0, 1000, 675, 180, 625, 1500, 1700000, 620000, 0.5, cite.Read},
	{"Douglas Fir-Larch", "No. 2", 0, 900, 575, 180, 625, 1350, 1600000, 580000, 0.5, cite.Read},
	{"Douglas Fir-Larch", "No. 3", 0, 525, 325, 180, 625, 775, 1400000, 510000, 0.5, cite.Memory},
	{"Douglas Fir-Larch", "Stud", 0, 700, 450, 180, 625, 850, 1400000, 510000, 0.5, cite.Memory},
	{"Hem-Fir", "Select Structural", 0, 1400, 925, 150, 405, 1500, 1600000, 580000, 0.43, cite.Memory},
	{"Hem-Fir", "No. 1 & Btr", 0, 1100, 725, 150, 405, 1350, 1500000, 550000, 0.43, cite.Memory},
	{"Hem-Fir", "No. 1", 0, 975, 625, 150, 405, 1350, 1500000, 550000, 0.43, cite.Read},
	{"Hem-Fir", "No. 2", 0, 850, 525, 150, 405, 1300, 1300000, 470000, 0.43, cite.Read},
	{"Hem-Fir", "No. 3", 0, 500, 300, 150, 405, 725, 1200000, 440000, 0.43, cite.Memory},
	{"Hem-Fir", "Stud", 0, 675, 400, 150, 405, 800, 1200000, 440000, 0.43, cite.Memory},
	{"Spruce-Pine-Fir", "Select Structural", 0, 1250, 700, 135, 425, 1400, 1500000, 550000, 0.42, cite.Memory},
	{"Spruce-Pine-Fir", "No. 1/No. 2", 0, 875, 450, 135, 425, 1150, 1400000, 510000, 0.42, cite.Read},
	{"Spruce-Pine-Fir", "No. 3", 0, 500, 250, 135, 425, 650, 1200000, 440000, 0.42, cite.Memory},
	{"Spruce-Pine-Fir", "Stud", 0, 675, 350, 135, 425, 725, 1200000, 440000, 0.42, cite.Memory},
	{"Spruce-Pine-Fir (South)", "Select Structural", 0, 1300, 575, 135, 335, 1200, 1300000, 470000, 0.36, cite.Memory},
	{"Spruce-Pine-Fir (South)", "No. 1", 0, 875, 400, 135, 335, 1050, 1200000, 440000, 0.36, cite.Memory},
	{"Spruce-Pine-Fir (South)", "No. 2", 0, 775, 350, 135, 335, 1000, 1100000, 400000, 0.36, cite.Memory},
	{"Spruce-Pine-Fir (South)", "No. 3", 0, 450, 200, 135, 335, 575, 1000000, 370000, 0.36, cite.Memory},
	{"Western Cedars", "Select Structural", 0, 1000, 600, 155, 425, 1000, 1100000, 400000, 0.36, cite.Memory},
	{"Western Cedars", "No. 1", 0, 725, 425, 155, 425, 825, 1000000, 370000, 0.36, cite.Read},
	{"Western Cedars", "No. 2", 0, 700, 425, 155, 425, 650, 1000000, 370000, 0.36, cite.Read},
	{"Western Cedars", "No. 3", 0, 400, 250, 155, 425, 375, 900000, 330000, 0.36, cite.Memory},
	{"Northern White Cedar", "Select Structural", 0, 775, 450, 120, 370, 750, 800000, 290000, 0.31, cite.Memory},
	{"Northern White Cedar", "No. 1", 0, 575, 325, 120, 370, 600, 700000, 260000, 0.31, cite.Memory},
	{"Northern White Cedar", "No. 2", 0, 550, 325, 120, 370, 475, 700000, 260000, 0.31, cite.Memory},
	{"Northern White Cedar", "No. 3", 0, 325, 175, 120, 370, 275, 600000, 220000, 0.31, cite.Memory},
	{"Baldcypress", "Select Structural", 0, 1200, 650, 160, 615, 1200, 1400000, 510000, 0.43, cite.Memory},
	{"Baldcypress", "No. 1", 0, 1000, 550, 160, 615, 1050, 1400000, 510000, 0.43, cite.Memory},
	{"Baldcypress", "No. 2", 0, 825, 450, 160, 615, 900, 1300000, 470000, 0.43, cite.Memory},
	{"Baldcypress", "No. 3", 0, 475, 250, 160, 615, 525, 1200000, 440000, 0.43, cite.Memory},
	{"White Oak", "Select Structural", 0, 1200, 700, 220, 800, 1100, 1100000, 400000, 0.73, cite.Memory},
	{"White Oak", "No. 1", 0, 875, 500, 220, 800, 900, 1000000, 370000, 0.73, cite.Memory},
	{"White Oak", "No. 2", 0, 850, 475, 220, 800, 700, 900000, 330000, 0.73, cite.Memory},
	{"White Oak", "No. 3", 0, 475, 275, 220, 800, 400, 800000, 290000, 0.73, cite.Memory},
	{"Redwood (close grain)", "Clear Structural", 0, 1750, 1000, 160, 650, 1850, 1400000, 510000, 0.44, cite.Memory},
	{"Redwood (close grain)", "Select Structural", 0, 1350, 800, 160, 650, 1500, 1400000, 510000, 0.44, cite.Memory},
	{"Redwood (close grain)", "No. 1", 0, 975, 575, 160, 650, 1200, 1300000, 470000, 0.44, cite.Memory},
	{"Redwood (close grain)", "No. 2", 0, 925, 525, 160, 650, 950, 1200000, 440000, 0.44, cite.Memory},
	{"Redwood (close grain)", "No. 3", 0, 525, 300, 160, 650, 550, 1100000, 400000, 0.44, cite.Memory},
	{"Redwood (open grain)", "Select Structural", 0, 1100, 625, 160, 425, 1100, 1100000, 400000, 0.37, cite.Memory},
	{"Redwood (open grain)", "No. 1", 0, 775, 450, 160, 425, 900, 1100000, 400000, 0.37, cite.Memory},
	{"Redwood (open grain)", "No. 2", 0, 725, 425, 160, 425, 700, 1000000, 370000, 0.37, cite.Memory},
	{"Redwood (open grain)", "No. 3", 0, 425, 250, 160, 425, 400, 900000, 330000, 0.37, cite.Memory},
}
