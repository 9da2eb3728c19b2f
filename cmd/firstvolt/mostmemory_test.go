package main

import (
	"os"
	"reflect"
)

// mostMemory is the most memory that a process had, in MB, 0 where the system
// does not tell.
func mostMemory(p *os.ProcessState) float64 {
	usage := reflect.Indirect(reflect.ValueOf(p.SysUsage()))
	if !usage.IsValid() || usage.Kind() != reflect.Struct || !usage.FieldByName("Maxrss").IsValid() {
		return 0
	}
	return float64(usage.FieldByName("Maxrss").Int()) / 1024 // KiB on Linux
}
