package qr

// modulus is the polynomial that defines GF(256), x⁸+x⁴+x³+x²+1 (clause 7.5.2). The
// powers of 2 are all nonzero elements of the field.
const modulus = 0x11d

// multiply returns the product of two elements of the field.
func multiply(a, b byte) byte {
	product := 0
	for shifted := int(a); b > 0; b >>= 1 {
		if b&1 == 1 {
			product ^= shifted
		}
		shifted <<= 1
		if shifted > 0xff {
			shifted ^= modulus
		}
	}
	return byte(product)
}

// generator returns the product of x-2⁰, x-2¹ and so on, up to its degree, with the
// coefficient of the highest power first (clause 7.5.2 and annex A).
func generator(degree int) []byte {
	g := make([]byte, degree+1)
	g[0] = 1
	root := byte(1)
	for n := range degree {
		for i := n + 1; i > 0; i-- {
			g[i] ^= multiply(g[i-1], root)
		}
		root = multiply(root, 2)
	}
	return g
}

// checkwords returns the error correction codewords of a block: the remainder of its
// data, times x to the degree of the generator, divided by the generator.
func checkwords(data, generator []byte) []byte {
	rest := make([]byte, len(data)+len(generator)-1)
	copy(rest, data)
	for i := range data {
		lead := rest[i]
		for j, coefficient := range generator {
			rest[i+j] ^= multiply(coefficient, lead)
		}
	}
	return rest[len(data):]
}
