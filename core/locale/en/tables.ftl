# Tables for a spreadsheet or a program.
tables-heading = Tables
tables-what = For a spreadsheet or a program: values as they are recorded, each column with its unit in its name.
tables-form = Written as
tables-csv = CSV, for a spreadsheet
tables-json = JSON, for a program
tables-flights = Flights and runs
tables-landings = Readings after landing
tables-packs = Flight packs
tables-parts = Parts and their lives
tables-settings = Changes of settings
tables-findings = Findings
tables-save-spoken = Save a table: { $table }
