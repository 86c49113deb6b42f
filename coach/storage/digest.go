package storage

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"hash"
	"maps"
	"math"
	"math/bits"
	"slices"

	"halfturn/coach/logbook/tables"
)

// A digest is a sum of hashes modulo 2^256.
type digest [4]uint64

// add adds the hash of a row.
func (d *digest) add(sum []byte) {
	var carry uint64
	for i := range d {
		d[i], carry = bits.Add64(d[i], binary.LittleEndian.Uint64(sum[8*i:]), carry)
	}
}

// digests are those of the sessions by id, and under "" that of all rows that belong to none.
type digests map[string]*digest

func (all digests) add(owner string, row []byte) {
	if all[owner] == nil {
		all[owner] = &digest{}
	}
	all[owner].add(row)
}

// whole is the digest of all of them.
func (all digests) whole() string {
	h := sha256.New()
	for _, owner := range slices.Sorted(maps.Keys(all)) {
		writeText(h, owner)
		for _, word := range all[owner] {
			writeNumber(h, word)
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// differ is the first session that differs from that of others; "" where none does.
func (all digests) differ(others digests) (session string, differs bool) {
	owners := slices.Sorted(maps.Keys(all))
	for _, owner := range append(owners, slices.Sorted(maps.Keys(others))...) {
		mine, other := all[owner], others[owner]
		if mine == nil || other == nil || *mine != *other {
			return owner, true
		}
	}
	return "", false
}

func writeNumber(h hash.Hash, n uint64) {
	var b [8]byte
	binary.LittleEndian.PutUint64(b[:], n)
	h.Write(b[:])
}

func writeText(h hash.Hash, text string) {
	writeNumber(h, uint64(len(text)))
	h.Write([]byte(text))
}

// A row is one of a table as either database gives it.
type row struct {
	owner   string
	columns []string // by name
	values  []any
}

// hash is that of a row. The error tells of a type that no column has.
func (r *row) hash(table string) ([]byte, error) {
	h := sha256.New()
	writeText(h, table)
	for i, column := range r.columns {
		writeText(h, column)
		switch v := r.values[i].(type) {
		case nil:
			writeText(h, "null")
		case int64:
			writeText(h, "number")
			writeNumber(h, uint64(v))
		case float64:
			writeText(h, "real")
			writeNumber(h, math.Float64bits(v))
		case string:
			writeText(h, "text")
			writeText(h, v)
		case []byte:
			writeText(h, "bytes")
			writeText(h, string(v))
		default:
			return nil, fmt.Errorf("the column %s of %s holds a %T", column, table, v)
		}
	}
	return h.Sum(nil), nil
}

// each reads the rows of a table.
func (t *table) each(tx *tables.Tx, take func(*row) error) error {
	owner := t.owner
	if owner == "" {
		owner = "''"
	}
	rows, err := tx.Query(`SELECT ` + owner + ` AS owner_of_row, t.* FROM ` + t.name + ` t ` + t.joins)
	if err != nil {
		return err
	}
	names, err := rows.Columns()
	if err != nil {
		_ = rows.Close()
		return err
	}
	var order []int // of the columns, by name
	for i := 1; i < len(names); i++ {
		if !t.skip[names[i]] {
			order = append(order, i)
		}
	}
	slices.SortFunc(order, func(x, y int) int {
		if names[x] < names[y] {
			return -1
		}
		return 1
	})
	r := &row{values: make([]any, len(order))}
	for _, i := range order {
		r.columns = append(r.columns, names[i])
	}
	values, into := make([]any, len(names)), make([]any, len(names))
	for i := range values {
		into[i] = &values[i]
	}
	return tables.Each(rows, nil, func() error {
		if err := rows.Scan(into...); err != nil {
			return err
		}
		r.owner, _ = values[0].(string)
		for to, from := range order {
			r.values[to] = tables.Text(values[from])
		}
		return take(r)
	})
}

// digest is that of all rows of a store, and how many rows the tables have.
func (s *store) digest(tx *tables.Tx) (digests, map[string]int, error) {
	all, counts := digests{}, map[string]int{}
	for i := range s.list {
		t := &s.list[i]
		err := t.each(tx, func(r *row) error {
			sum, err := r.hash(t.name)
			if err == nil {
				all.add(r.owner, sum)
				counts[t.name]++
			}
			return err
		})
		if err != nil {
			return nil, nil, err
		}
	}
	return all, counts, nil
}
