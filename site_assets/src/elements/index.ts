/** The elements of every page; loading this registers them. The logbook has a script of its own. */
import "./figure";
import "./item";
import "./progress";
import "./quiz";
import "./resume";
