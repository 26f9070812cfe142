/** The script of every page. */
export {};
