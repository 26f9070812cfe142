/** All elements; loading this registers them. */
import "./figure";
import "./item";
import "./logbook";
import "./progress";
import "./quiz";
import "./resume";
