package main

import "math"

// An integrator solves any ordinary differential equation y' = f(t, y) in steps as long
// as its tolerances allow. It uses the pair of orders 5 and 4 of Dormand and Prince, A
// family of embedded Runge-Kutta formulae, J. Comput. Appl. Math. 6 (1980) 19, and
// continues with the fifth order. It contains no physics of balls.
type integrator struct {
	rel, abs float64 // allowed error of a step: for each component of y its size times rel, or abs if that is more
	k        [7][]float64
	stage, y []float64
}

// The formulae's nodes, the weights of the stages, and the differences of the two orders.
var (
	nodes   = [7]float64{0, 1. / 5, 3. / 10, 4. / 5, 8. / 9, 1, 1}
	weights = [7][]float64{
		nil,
		{1. / 5},
		{3. / 40, 9. / 40},
		{44. / 45, -56. / 15, 32. / 9},
		{19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729},
		{9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656},
		{35. / 384, 0, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84},
	}
	differ = [7]float64{71. / 57600, 0, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40}
)

// A field is f: it writes y' into dy.
type field func(t float64, y, dy []float64)

// newIntegrator returns an integrator for n unknowns.
func newIntegrator(n int, rel, abs float64) *integrator {
	g := &integrator{rel: rel, abs: abs, stage: make([]float64, n), y: make([]float64, n)}
	for i := range g.k {
		g.k[i] = make([]float64, n)
	}
	return g
}

// follow integrates y from t until an event's value, positive at the start, becomes zero,
// and returns that time. It calls seen at every step.
func (g *integrator) follow(f field, event func(y []float64) float64, t float64, y []float64, seen func(t float64, y []float64)) float64 {
	f(t, y, g.k[0])
	h := 0.01 * (g.abs + norm(y)) / (g.abs + norm(g.k[0]))
	value := event(y)
	for {
		wrong := g.step(f, t, y, h)
		if wrong <= 1 {
			next := event(g.y)
			if next <= 0 {
				t += g.locate(event, y, h, value, next)
				copy(y, g.y)
				seen(t, y)
				return t
			}
			t, value = t+h, next
			copy(y, g.y)
			copy(g.k[0], g.k[6]) // the last stage is the first one of the next step
			seen(t, y)
		}
		h *= min(5, max(0.2, 0.9*math.Pow(wrong, -0.2)))
	}
}

// step tries a step of h from y, with y' known, and writes the result into g.y. Its error
// is in units of the allowed one.
func (g *integrator) step(f field, t float64, y []float64, h float64) (wrong float64) {
	for s := 1; s < len(g.k); s++ {
		for i := range y {
			sum := 0.0
			for j, w := range weights[s] {
				sum += w * g.k[j][i]
			}
			g.stage[i] = y[i] + h*sum
		}
		f(t+nodes[s]*h, g.stage, g.k[s])
	}
	copy(g.y, g.stage)
	for i := range y {
		e := 0.0
		for j, d := range differ {
			e += d * g.k[j][i]
		}
		allowed := max(g.abs, g.rel*max(math.Abs(y[i]), math.Abs(g.y[i])))
		wrong = max(wrong, math.Abs(h*e)/allowed)
	}
	return wrong
}

// locate finds the event that a step of h passed over, and writes y at the event into
// g.y. It uses the method of false position, halving the value at the end that stays (the
// Illinois method).
func (g *integrator) locate(event func(y []float64) float64, y []float64, h, before, after float64) float64 {
	end := append([]float64(nil), g.y...)
	from, to, mid, last := 0.0, 1.0, 1.0, 0
	for range 60 {
		mid = from + (to-from)*before/(before-after)
		g.within(y, end, h, mid)
		value := event(g.y)
		if value == 0 || mid == from || mid == to {
			break
		}
		if value > 0 {
			from, before = mid, value
			if last > 0 {
				after /= 2
			}
			last = 1
		} else {
			to, after = mid, value
			if last < 0 {
				before /= 2
			}
			last = -1
		}
	}
	return mid * h
}

// inner are the weights of the stages within a step.
var inner = [7]float64{-12715105075. / 11282082432, 0, 87487479700. / 32700410799, -10690763975. / 1880347072,
	701980252875. / 199316789632, -1453857185. / 822651844, 69997945. / 29380423}

// within writes y at a share x of a step of h into g.y, to fourth order and without
// another evaluation of f. Hairer, Nørsett and Wanner, Solving Ordinary Differential
// Equations I (1993), II.6.
func (g *integrator) within(y, end []float64, h, x float64) {
	for i := range y {
		all := end[i] - y[i]
		first := h*g.k[0][i] - all
		last := all - h*g.k[6][i] - first
		bend := 0.0
		for j, w := range inner {
			bend += w * h * g.k[j][i]
		}
		g.y[i] = y[i] + x*(all+(1-x)*(first+x*(last+(1-x)*bend)))
	}
}

func norm(y []float64) float64 {
	sum := 0.0
	for _, v := range y {
		sum += v * v
	}
	return math.Sqrt(sum)
}
