package draw

import "scrubline/wasm/trace"

// Photo is a photo as it lies on the sheet.
type Photo struct {
	Key     string  // of its picture
	Opacity float64 // 0 to 1
	Mesh    *trace.Mesh
}

// photos lays the photos under the drawing. They are painted over the parts and
// shine through: the drawing stays readable in front of them, as on tracing
// film over a photo, and the paper that fills the parts hides nothing of it.
func (s *Sheet) photos(l *List) {
	for i := range s.Photos {
		l.Ops = append(l.Ops, Op{Kind: PhotoOp, Photo: &s.Photos[i]})
	}
}
