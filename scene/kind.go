package scene

import "sort"

// Kind describes one kind of part: what a builder measures of it and what it
// is made of. A kind is one file named kind_NAME.go that registers itself;
// nothing else names it.
type Kind struct {
	Name     string    // as stored, e.g. air_tank
	Label    string    // as shown, e.g. Air tank
	About    string    // one plain sentence for the placing list
	Group    string    // heading in the placing list: Chassis, Running gear, Exhaust, Air, Fuel, Electric, Brakes, Body, Plain shapes
	Carriers []Carrier // where it may ride; the first is the default
	Traits   []Trait   // what it is
	Caution  string    // shown with every finding of this part; empty for none
	// Derived kinds stand for something the vehicle has already: they are not
	// among those one places, and are made of nothing where the vehicle has none.
	Derived bool
	// Stays: it goes where the vehicle has it, so that where something is in its
	// way the other part is moved.
	Stays  bool
	Fields []Field // its dimensions, in the order one measures them
	// Check tells what is wrong between fields that are each in range, naming
	// the field, or returns nil. It may be nil.
	Check func(Size) *FieldError
	// Form lists what a part of this kind is made of, in the part's own axes
	// (parallel to the body's before the part is turned), for the vehicle and
	// carrier it sits on.
	Form func(Size, *Vehicle, Carrier) []Shape
}

// FieldError says which field of a size is wrong and what was expected.
type FieldError struct {
	Field    string // name, or name/row/column for a table
	Expected string
}

// FieldType is how a field is entered and stored.
type FieldType int

const (
	Length FieldType = iota // millimetres; the name ends in _mm
	Angle                   // degrees; the name ends in _deg
	Count                   // whole number
	Choice                  // one of Choices
	Flag                    // yes or no
	Table                   // rows of numbers, described by Columns
)

// Field is one dimension of a kind.
type Field struct {
	Name    string
	Label   string
	Help    string // where the tape goes
	Type    FieldType
	Min     float64 // least allowed number
	Max     float64 // largest allowed number
	Default float64
	Handed  bool // changes sign on the other side of the vehicle (a Y)
	// ZeroIs is what 0 stands for, where it is no measure of its own: "none",
	// "no limit". Shown in place of the 0, and typing nothing is 0.
	ZeroIs string
	// When says whether the field means anything at a size, as a plain beam's
	// housing does not; nil: always.
	When func(Size) bool

	Choices       []string // Choice: stored words
	ChoiceLabels  []string // Choice: shown words, same order
	DefaultChoice string

	Columns     []Field // Table: Length, Angle or Count only
	MinRows     int
	MaxRows     int
	DefaultRows []Row
}

// Row is one row of a table field, in the order of its columns.
type Row []float64

// Value is one stored dimension. Which member holds depends on the field's type.
type Value struct {
	Num  float64
	Text string
	Flag bool
	Rows []Row
}

// Size holds a part's dimensions by field name. It has a value for every field
// of its kind.
type Size map[string]Value

// Num is the number stored under name, 0 when there is none.
func (s Size) Num(name string) float64 { return s[name].Num }

// Text is the choice stored under name.
func (s Size) Text(name string) string { return s[name].Text }

// Flag is the yes or no stored under name.
func (s Size) Flag(name string) bool { return s[name].Flag }

// Rows is the table stored under name.
func (s Size) Rows(name string) []Row { return s[name].Rows }

// Clone is a copy that shares nothing with s.
func (s Size) Clone() Size {
	c := make(Size, len(s))
	for k, v := range s {
		if v.Rows != nil {
			rows := make([]Row, len(v.Rows))
			for i, r := range v.Rows {
				rows[i] = append(Row(nil), r...)
			}
			v.Rows = rows
		}
		c[k] = v
	}
	return c
}

var kinds = map[string]*Kind{}

// Register adds a kind; each kind's file calls it once. A name taken twice is
// a mistake in the program, not in anyone's data.
func Register(k Kind) {
	if kinds[k.Name] != nil {
		panic("scene: kind registered twice: " + k.Name)
	}
	kinds[k.Name] = &k
}

// KindNamed returns the kind of that name, or nil.
func KindNamed(name string) *Kind { return kinds[name] }

// Kinds lists every kind, sorted by name.
func Kinds() []*Kind {
	list := make([]*Kind, 0, len(kinds))
	for _, k := range kinds {
		list = append(list, k)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].Name < list[j].Name })
	return list
}

// DefaultSize is a size with every field at its default.
func (k *Kind) DefaultSize() Size {
	s := make(Size, len(k.Fields))
	for _, f := range k.Fields {
		v := Value{Num: f.Default, Text: f.DefaultChoice}
		switch f.Type {
		case Flag:
			v = Value{Flag: f.Default != 0}
		case Table:
			v = Value{}
			for _, r := range f.DefaultRows {
				v.Rows = append(v.Rows, append(Row(nil), r...))
			}
		}
		s[f.Name] = v
	}
	return s
}
