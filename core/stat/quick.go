package stat

// The tables of the Normal distribution: the number of steps per standard deviation,
// and how many standard deviations they reach.
const (
	quickSteps        = 64
	quickReach        = 6
	quickDensityReach = 8
)

var quick = func() (t [2*quickReach*quickSteps + 2]float64) {
	for i := range t {
		t[i] = Normal(float64(i)/quickSteps - quickReach)
	}
	return t
}()

// QuickNormal returns Normal to within 1e-5, from a table. It is for posteriors, which
// need some hundred thousand values for each stroke.
func QuickNormal(z float64) float64 {
	at := (z + quickReach) * quickSteps
	if !(at > 0) {
		return 0
	}
	if at >= 2*quickReach*quickSteps {
		return 1
	}
	i := int(at)
	return quick[i] + (at-float64(i))*(quick[i+1]-quick[i])
}

var quickDensity = func() (t [quickDensityReach*quickSteps + 2]float64) {
	for i := range t {
		t[i] = NormalDensity(float64(i) / quickSteps)
	}
	return t
}()

// QuickDensity returns NormalDensity to within 0.2 %, from a table. Beyond 8 standard
// deviations, where the density is less than 1e-14, it returns 0.
func QuickDensity(z float64) float64 {
	if z < 0 {
		z = -z
	}
	at := z * quickSteps
	if !(at < quickDensityReach*quickSteps) {
		return 0
	}
	i := int(at)
	return quickDensity[i] + (at-float64(i))*(quickDensity[i+1]-quickDensity[i])
}
