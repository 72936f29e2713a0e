package scene

// lowerFields are where a part that hangs between two carriers keeps its lower
// mount.
var lowerFields = [3]string{"lower_x_mm", "lower_y_mm", "lower_z_mm"}

// CarryParts moves parts as wholes by one way in body axes: of an air spring or
// a shock absorber both mounts, where [MoveParts] moves the upper one alone.
func CarryParts(doc *Document, parts []string, by Vec) (*Document, string, error) {
	var list []placing
	for _, id := range parts {
		i, err := doc.partAt(id)
		if err != nil {
			return nil, "", err
		}
		moved := doc.shifted(i, by)
		if k := KindNamed(moved.p.Kind); k != nil && fieldOf(k.Fields, lowerFields[0]) != nil {
			size := Size{}
			for name, v := range moved.p.Size {
				size[name] = v
			}
			for axis, name := range lowerFields {
				size[name] = Value{Num: round6(size.Num(name) + by[axis])}
			}
			moved.p.Size = size
		}
		list = append(list, moved)
	}
	c, err := doc.withPlaced(list)
	return c, "moved " + doc.namesOf(parts), err
}
