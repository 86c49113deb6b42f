package main

import (
	"encoding"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"halfturn/configs/strict"
)

// origins say where each value of the configuration comes from: a flag or an environment variable by its name; else the
// user's file, or the default.
type origins struct {
	file  *strict.File      // nil when there is none
	named map[string]string // flags and variables, by key
}

func (o *origins) set(key, name string) {
	if o.named == nil {
		o.named = map[string]string{}
	}
	o.named[key] = name
}

// added appends to a list of a key what a flag gives.
func (o *origins) added(key, flag string, list, more []string) []string {
	for _, s := range more {
		o.set(fmt.Sprintf("%s[%d]", key, len(list)), flag)
		list = append(list, s)
	}
	return list
}

// of returns the flag or variable that set a key, such as "allow[1]", or what it is part of.
func (o *origins) of(key string) string {
	for key != "" {
		if name, ok := o.named[key]; ok {
			return name
		}
		key = key[:max(strings.LastIndexAny(key, ".["), 0)]
	}
	return ""
}

// Errorf makes an error about the value of a key. It begins with the flag or the variable, or with file and line.
func (o *origins) Errorf(key, format string, args ...any) error {
	if name := o.of(key); name != "" {
		return fmt.Errorf("%s: %s", name, fmt.Sprintf(format, args...))
	}
	if o.file == nil {
		return fmt.Errorf("the default of %s %s", key, fmt.Sprintf(format, args...))
	}
	return o.file.Errorf(key, format, args...)
}

// wrap puts where the value of a key comes from before an error that was found later. A default is not to blame.
func (o *origins) wrap(key string, err error) error {
	name := o.of(key)
	list, _, _ := strings.Cut(key, "[")
	if name == "" && o.file != nil && (o.file.Has(key) || o.file.Has(list)) {
		name = strings.TrimSuffix(o.file.Errorf(key, "").Error(), ": ")
	}
	if name == "" {
		return err
	}
	return fmt.Errorf("%s: %w", name, err)
}

// orBy is wrap, but of a default it says which flag changes it.
func (o *origins) orBy(key, flag string, err error) error {
	if named := o.wrap(key, err); named != err {
		return named
	}
	return fmt.Errorf("%w (%s)", err, flag)
}

// give sets a key by a flag of the same name, if that was given.
func give[T any](c *config, key string, to, value *T) { giveBy(c, key, "--"+key, to, value) }

// giveBy is give for a flag of another name.
func giveBy[T any](c *config, key, flag string, to, value *T) {
	if value != nil {
		*to = *value
		c.from.set(key, flag)
	}
}

func set[T any](to *T, value *T) {
	if value != nil {
		*to = *value
	}
}

// fromEnvironment sets each key below prefix that has a variable: "speech.reaction" is HALFTURN_SPEECH_REACTION,
// lists are split at commas.
func (c *config) fromEnvironment(v reflect.Value, prefix string, env func(string) (string, bool)) error {
	for i := range v.NumField() {
		if !v.Type().Field(i).IsExported() {
			continue
		}
		f, key := v.Field(i), prefix+v.Type().Field(i).Tag.Get("toml")
		_, leaf := f.Addr().Interface().(encoding.TextUnmarshaler)
		if f.Kind() == reflect.Struct && !leaf {
			if err := c.fromEnvironment(f, key+".", env); err != nil {
				return err
			}
			continue
		}
		name := variable(key)
		s, given := env(name)
		if !given {
			continue
		}
		c.from.set(key, name)
		if err := setText(f, s); err != nil {
			return c.from.Errorf(key, "is %q; wanted: %v", s, err)
		}
	}
	return nil
}

// variable names the environment variable of a key.
func variable(key string) string {
	return "HALFTURN_" + strings.ToUpper(strings.NewReplacer("-", "_", ".", "_").Replace(key))
}

func setText(f reflect.Value, s string) error {
	if u, ok := f.Addr().Interface().(encoding.TextUnmarshaler); ok {
		if u.UnmarshalText([]byte(s)) != nil {
			return errors.New("a time span such as 2m0s")
		}
		return nil
	}
	switch f.Kind() {
	case reflect.String:
		f.SetString(s)
	case reflect.Bool:
		b, err := strconv.ParseBool(s)
		if err != nil {
			return errors.New("true or false")
		}
		f.SetBool(b)
	case reflect.Int:
		n, err := strconv.Atoi(s)
		if err != nil {
			return errors.New("a whole number")
		}
		f.SetInt(int64(n))
	case reflect.Float64:
		x, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return errors.New("a finite number")
		}
		f.SetFloat(x)
	case reflect.Slice:
		if f.Type().Elem().Kind() != reflect.String {
			return errors.New("no such variable; write [[station]] into the configuration file")
		}
		list := []string{}
		for part := range strings.SplitSeq(s, ",") {
			if part = strings.TrimSpace(part); part != "" {
				list = append(list, part)
			}
		}
		f.Set(reflect.ValueOf(list))
	}
	return nil
}
