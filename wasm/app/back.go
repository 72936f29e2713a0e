package app

import "scrubline/fitment"

// stand is where the body stands on its travel, and the movements on theirs.
type stand struct {
	front, rear float64
	apart       bool
	posed       *fitment.State
	moved       moves
}

func (a *App) stand() stand { return stand{a.front, a.rear, a.apart, a.posed, a.moves} }

// leave notes where the body stood before a finding moved it. A second finding
// leaves the first note: that is where the user was at work.
func (a *App) leave(was stand) {
	if a.left == nil && (was.front != a.front || was.rear != a.rear || was.posed != a.posed || was.moved != a.moves) {
		a.left = &was
	}
}

// backWords is what the way back is called, empty when there is none.
func (a *App) backWords() string {
	if a.left == nil {
		return ""
	}
	f, r := a.level(a.left.front), a.level(a.left.rear)
	for _, h := range a.doc.Heights {
		if near(h.FrontMM, a.left.front) && near(h.RearMM, a.left.rear) && a.left.posed == nil {
			return "Back to " + lower(h.Name)
		}
	}
	if f == r {
		return "Back to " + f
	}
	return "Back to " + f + "/" + r
}

// back puts the body where it stood before a finding moved it.
func (a *App) back(*Command, *Reply) error {
	if a.left == nil {
		return nil
	}
	was := *a.left
	a.left = nil
	a.apart = was.apart
	a.setHeight(was.front, was.rear)
	a.posed, a.moves = was.posed, was.moved
	a.left = nil
	return nil
}
