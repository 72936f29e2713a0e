package scene

import "fmt"

// Photo is a photo of the real thing, put true to scale behind a view. It is
// made true by what is known in it: the corners of a rectangle (Corners,
// WideMM, HighMM), or in a photo taken straight on the two ends of a length
// (Ends, LengthMM). One of the two is set. Points in the picture are pixels
// from its upper left corner, Y down.
type Photo struct {
	ID, Name  string
	View      PhotoView
	StationMM float64 // section: the X it is of; 0 in other views
	Picture   *Picture

	Corners        [4]Spot // lower left, lower right, upper right, upper left
	WideMM, HighMM float64
	Known          []PhotoPoint // more known points of the rectangle's plane
	Ends           [2]Spot
	LengthMM       float64
	Checks         []PhotoCheck // lengths that were measured to see whether it is right

	// The point AtPX of the picture lies at AtMM in the view's plane: Y and Z in
	// a section, X and Z in the side view, X and Y in the plan. The picture is
	// turned about it by TurnDeg, anticlockwise as seen.
	AtPX, AtMM Spot
	TurnDeg    float64
	Mirrored   bool // taken from the other side of the view

	Opacity float64 // above 0, at most 1
	Hidden  bool
}

// PhotoView is the view a photo stands behind.
type PhotoView string

const (
	PhotoSection PhotoView = "section"
	PhotoSide    PhotoView = "side"
	PhotoPlan    PhotoView = "plan"
)

// Spot is a point of a picture (px) or of a plane (mm).
type Spot [2]float64

// PhotoPoint is a point of the picture that lies at MM in the plane of the
// rectangle, measured from its lower left corner to the right and up.
type PhotoPoint struct{ PX, MM Spot }

// PhotoCheck is a length between two points of the picture, as measured.
type PhotoCheck struct {
	From, To Spot
	LengthMM float64
}

// Limits of photos.
const (
	MaxPhotos      = 8
	maxPhotoPoints = 12
	minOpacity     = 0.05
	minPhotoMM     = 5
)

// Rectangle says whether the photo is made true by a rectangle; otherwise it
// is by two ends.
func (p *Photo) Rectangle() bool { return p.LengthMM == 0 }

// PhotoNamed is the photo of that id, or nil.
func (doc *Document) PhotoNamed(id string) *Photo {
	for i := range doc.Photos {
		if doc.Photos[i].ID == id {
			return &doc.Photos[i]
		}
	}
	return nil
}

func (c *checker) photos() {
	if n := len(c.doc.Photos); n > MaxPhotos {
		c.fail("/photos", fmt.Sprintf("at most %d photos", MaxPhotos), fmt.Sprintf("%d", n))
		return
	}
	seen := map[string]bool{}
	for i := range c.doc.Photos {
		p, at := &c.doc.Photos[i], below("/photos", i)
		c.id(at+"/id", p.ID)
		if seen[p.ID] {
			c.fail(at+"/id", "an id of its own", "a second "+quote(p.ID))
		}
		seen[p.ID] = true
		c.photo(at, p)
	}
}

func (c *checker) photo(at string, p *Photo) {
	c.line(at+"/name", p.Name)
	switch p.View {
	case PhotoSection:
		c.num(at+"/station_mm", p.StationMM, -farMM, farMM)
	case PhotoSide, PhotoPlan:
		c.num(at+"/station_mm", p.StationMM, 0, 0)
	default:
		c.fail(at+"/view", "section, side or plan", quote(string(p.View)))
	}
	if p.Picture == nil {
		c.fail(at+"/base64", "a picture", "none")
		return
	}
	c.photoTruth(at, p)
	c.inPicture(at+"/at_px", p, p.AtPX)
	c.far(at+"/at_mm", p.AtMM)
	c.num(at+"/turn_deg", p.TurnDeg, -180, 180)
	c.num(at+"/opacity", p.Opacity, minOpacity, 1)
}

// photoTruth checks what makes a photo true to scale: all of the one kind and
// nothing of the other.
func (c *checker) photoTruth(at string, p *Photo) {
	if p.Rectangle() {
		for k := range p.Corners {
			c.inPicture(below(at+"/corners_px", k), p, p.Corners[k])
		}
		c.num(at+"/wide_mm", p.WideMM, minPhotoMM, farMM)
		c.num(at+"/high_mm", p.HighMM, minPhotoMM, farMM)
		if p.Ends != [2]Spot{} {
			c.fail(at, "either corners_px or ends_px", "both")
		}
	} else {
		for k := range p.Ends {
			c.inPicture(below(at+"/ends_px", k), p, p.Ends[k])
		}
		c.num(at+"/length_mm", p.LengthMM, minPhotoMM, farMM)
		if p.Corners != [4]Spot{} || p.WideMM != 0 || p.HighMM != 0 || len(p.Known) > 0 {
			c.fail(at, "either corners_px or ends_px", "both")
		}
	}
	if n := max(len(p.Known), len(p.Checks)); n > maxPhotoPoints {
		c.fail(at, fmt.Sprintf("at most %d more points, and as many checks", maxPhotoPoints), fmt.Sprintf("%d", n))
		return
	}
	for k, q := range p.Known {
		c.inPicture(below(at+"/known", k)+"/px", p, q.PX)
		c.far(below(at+"/known", k)+"/mm", q.MM)
	}
	for k, q := range p.Checks {
		here := below(at+"/checks", k)
		c.inPicture(here+"/from_px", p, q.From)
		c.inPicture(here+"/to_px", p, q.To)
		c.num(here+"/length_mm", q.LengthMM, minPhotoMM, farMM)
	}
}

func (c *checker) inPicture(at string, p *Photo, q Spot) {
	wide, high := p.Picture.Size()
	c.num(at+"/0", q[0], 0, float64(wide))
	c.num(at+"/1", q[1], 0, float64(high))
}

func (c *checker) far(at string, q Spot) {
	c.num(at+"/0", q[0], -farMM, farMM)
	c.num(at+"/1", q[1], -farMM, farMM)
}
