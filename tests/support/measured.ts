export { measured, measuredFor } from "../../src/interpretation/checks/measured.ts";
