/** The script of the logbook page: copies, their checksums and the report are needed nowhere else. */
import { courseOfPage } from "./page";

if (courseOfPage() !== null) void import("./elements/logbook");
