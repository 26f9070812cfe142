/** Everything that decides, free of the page: what the tests load and the elements use. */
export * from "./attempt";
export * from "./backup";
export * from "./canonical";
export * from "./event";
export * from "./outline";
export * from "./progress";
export * from "./quiz";
export * from "./record";
