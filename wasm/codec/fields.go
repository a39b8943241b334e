package codec

// Fields visits the fields of a record by name, in the order in which they are written. A
// record type has one such list, used by both the writer and the reader:
//
//	func (t *Table) fields(f codec.Fields) {
//		f.Text("name", &t.Name)
//		f.Text("link", &t.Link)
//	}
//
// A field that a text does not have, or has as null, is left unchanged. Keys that are not
// on the list are skipped.
type Fields interface {
	// Text is a text; TextIfAny is omitted if it is empty.
	Text(name string, at *string)
	TextIfAny(name string, at *string)
	// Whole is an integer.
	Whole(name string, at *int)
	// Has reports whether a text has the field, whatever its value. It is not written.
	Has(name string, at *bool)

	// begin reports whether to visit the value of a field now. given says whether it is
	// to be written.
	begin(name string, given bool) bool
	record(fields func(Fields))
	list(l list)
}

// A list is the view that Fields has of a slice of records.
type list struct {
	most    int
	len     int
	missing bool              // the slice is nil
	clear   func()            // makes the slice empty and not nil
	grow    func()            // appends an empty record
	visit   func(int, Fields) // visits the fields of a record
}

// Record is a record within the record. It is written if given is true.
func Record[T any](f Fields, name string, given bool, at *T, fields func(*T, Fields)) {
	if f.begin(name, given) {
		f.record(func(f Fields) { fields(at, f) })
	}
}

// List is a list of records. A text with more than most of them is refused, and no more
// than that many are ever stored.
func List[T any](f Fields, name string, most int, at *[]T, fields func(*T, Fields)) {
	if f.begin(name, true) {
		f.list(listOf(most, at, fields))
	}
}

// ListIfAny is a List that is omitted if it is empty.
func ListIfAny[T any](f Fields, name string, most int, at *[]T, fields func(*T, Fields)) {
	if f.begin(name, len(*at) > 0) {
		f.list(listOf(most, at, fields))
	}
}

func listOf[T any](most int, at *[]T, fields func(*T, Fields)) list {
	return list{
		most: most, len: len(*at), missing: *at == nil,
		clear: func() { *at = []T{} },
		grow:  func() { *at = append(*at, *new(T)) },
		visit: func(i int, f Fields) { fields(&(*at)[i], f) },
	}
}
