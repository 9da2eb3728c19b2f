package main

import "github.com/urfave/cli/v2"

func demoCommand() *cli.Command { return &cli.Command{Name: "demo", Usage: "x"} }
