package qr

// codewords returns a text's codewords in the order in which they are placed.
func codewords(text string, v version, level Level) []byte {
	return interleave(message(text, v, v.data(level)), int(blocks[level][v-1]), int(checks[level][v-1]))
}

// message returns a text in byte mode: the mode's four bits, the length, the bytes, four
// zero bits as terminator, and padding up to the number of codewords (clause 7.4).
// Everything after the mode is shifted by half a codeword.
func message(text string, v version, codewords int) []byte {
	const byteMode = 0b0100
	length := []byte{byte(len(text) >> 8), byte(len(text))}[2-v.counter():]
	data := make([]byte, 0, codewords)
	half := byte(byteMode)
	for _, b := range append(length, text...) {
		data = append(data, half<<4|b>>4)
		half = b & 0xf
	}
	data = append(data, half<<4)
	for pad := byte(0xec); len(data) < codewords; pad ^= 0xec ^ 0x11 {
		data = append(data, pad)
	}
	return data
}

// interleave divides data into blocks, the later ones longer by one if they cannot be
// equal. It takes the first codeword of each block, the second of each and so on, and
// then their error correction codewords, checks for each block, in the same way (clauses
// 7.5.1 and 7.6). Damage in one place is thus spread over all blocks.
func interleave(data []byte, blocks, checks int) []byte {
	short, cut := len(data)/blocks, make([][]byte, blocks)
	start := 0
	for i := range cut {
		end := start + short
		if i >= blocks-len(data)%blocks {
			end++
		}
		cut[i] = data[start:end]
		start = end
	}
	out := make([]byte, 0, len(data)+blocks*checks)
	for i := range short + 1 {
		for _, block := range cut {
			if i < len(block) {
				out = append(out, block[i])
			}
		}
	}
	g := generator(checks)
	for i, block := range cut {
		cut[i] = checkwords(block, g)
	}
	for i := range checks {
		for _, block := range cut {
			out = append(out, block[i])
		}
	}
	return out
}
