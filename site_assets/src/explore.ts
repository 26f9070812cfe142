/** Registers what explores a figure; loaded by <tv-figure> when a reader asks. */
import { Explorer } from "./elements/explorer";

window.threeviewExplorer = Explorer;
