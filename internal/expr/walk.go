package expr

// Walk calls visit for x and, where it returns true, for what x is made of, from
// left to right.
func Walk(x Expr, visit func(Expr) bool) {
	if x == nil || !visit(x) {
		return
	}
	each := func(parts ...Expr) {
		for _, p := range parts {
			Walk(p, visit)
		}
	}
	switch x := x.(type) {
	case *Sign:
		each(x.X)
	case *Arith:
		each(x.X, x.Y)
	case *Call:
		each(x.Args...)
	case *Shift:
		each(x.D, x.P)
	case *Inset:
		each(x.D, x.S)
	case *Level:
		each(x.P, x.L)
	case *Meet:
		each(x.P)
	case *Compare:
		each(x.X, x.Y)
	case *Not:
		each(x.X)
	case *Logic:
		each(x.X, x.Y)
	case *Cond:
		each(x.X, x.C, x.Y)
	}
}
