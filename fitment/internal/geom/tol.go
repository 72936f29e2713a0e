package geom

// Every tolerance of the engine is here and derives from GapTol.
const (
	// GapTol (mm) is how exact a single gap is on solids up to 6 m: iterations
	// stop when upper and lower bound are this close. A tape reads 0.5 mm; a
	// thousandth is far below anything that can be built.
	GapTol = 1e-3

	// BoundTol (mm) is how far the certified bound over a travel may lie below
	// the least gap found.
	BoundTol = 0.1

	// Tiny (mm) is a length below which a direction is rounding noise: two
	// points this close are one point.
	Tiny = GapTol * 1e-6
)
