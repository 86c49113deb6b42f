package settings

import (
	"encoding"
	"errors"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// fromEnvironment sets each key below prefix that has a variable: "speech.reaction" is HALFTURN_SPEECH_REACTION.
func (c *Config) fromEnvironment(v reflect.Value, prefix string, env func(string) (string, bool)) error {
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
		name := Variable(key)
		s, given := env(name)
		if !given {
			continue
		}
		c.from.set(key, name)
		if err := setText(f, s); err != nil {
			return c.Errorf(key, "is %q; must be %v", s, err)
		}
	}
	return nil
}

// Variable names the environment variable of a key.
func Variable(key string) string {
	return "HALFTURN_" + strings.ToUpper(strings.NewReplacer("-", "_", ".", "_").Replace(key))
}

// setText reads a value of the environment; a list is split at commas. The error says what the value must be.
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
		return setList(f, s)
	}
	return nil
}

func setList(f reflect.Value, s string) error {
	if f.Type().Elem().Kind() != reflect.String {
		return errors.New("in the configuration file, as [[station]]; a variable cannot hold it")
	}
	list := []string{}
	for part := range strings.SplitSeq(s, ",") {
		if part = strings.TrimSpace(part); part != "" {
			list = append(list, part)
		}
	}
	f.Set(reflect.ValueOf(list))
	return nil
}
