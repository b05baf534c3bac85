import { allowedWords } from "../src/records/nearMiss.ts";
import { asksForHelp, runCommand } from "./command.ts";
import { commands } from "./commands.ts";

/** `node scripts/main.ts <command> ...`, which every `npm run <command>` stands for. */
const [name = "", ...argv] = process.argv.slice(2);
if (Object.hasOwn(commands, name)) process.exitCode = await runCommand((await commands[name]!()).command, argv);
else if (asksForHelp([name]))
  console.log(
    `npm run COMMAND -- [options]\n\nCommands: ${Object.keys(commands).join(", ")}.\nEach explains itself: npm run COMMAND -- --help`,
  );
else {
  console.error(`there is no command "${name}"; ${allowedWords(name, Object.keys(commands))}`);
  process.exitCode = 1;
}
