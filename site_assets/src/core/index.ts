/** Everything that decides, free of the page: what the tests load and the elements use. */
export * from "./quiz";
