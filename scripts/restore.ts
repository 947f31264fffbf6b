import { existsSync } from "node:fs";
import { readArchive } from "./archive/read-archive";
import { exitOnFailure, StepFailure, step } from "./step";
import { withMigrator } from "./with-migrator";

await exitOnFailure(async () => {
  const file = process.argv[2];
  if (!file) throw new StepFailure("Say what from: npm run restore -- FILE");
  if (!existsSync(file)) throw new StepFailure(`There is no ${file}.`);
  const { tables, rows } = await step(`Restoring from ${file}`, () =>
    withMigrator((migrator) => readArchive(migrator, file)),
  );
  console.log(`${rows} rows in ${tables} tables.`);
});
