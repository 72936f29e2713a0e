package scene

// TraitsOf is what a part is: its own traits where it has some, otherwise its
// kind's. A fixed thing that rides on an axle or a wheel moves with it, so
// there fixed becomes moving.
func TraitsOf(p *Part) []Trait {
	if len(p.Traits) > 0 {
		return p.Traits
	}
	k := KindNamed(p.Kind)
	if k == nil {
		return nil
	}
	if p.Carrier == Body || p.Carrier == Ground {
		return k.Traits
	}
	list := make([]Trait, 0, len(k.Traits))
	for _, t := range k.Traits {
		if t == Fixed {
			t = Moving
		}
		list = append(list, t)
	}
	return list
}
