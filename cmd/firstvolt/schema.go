package main

import (
	"github.com/urfave/cli/v2"

	"firstvolt/checks/sheet"
)

func schemaCommand() *cli.Command {
	return &cli.Command{
		Name: "schema", Usage: "the JSON Schema of the sheet, for an editor",
		Description: "An editor that knows it offers keys and words and marks slips while you type. It knows less than check: whether a part that is named exists, only check can tell.",
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return usage{"schema takes no arguments", "firstvolt schema > firstvolt.schema.json"}
			}
			out, err := sheet.Schema()
			if err != nil {
				return err
			}
			_, err = c.App.Writer.Write(out)
			return err
		},
	}
}
