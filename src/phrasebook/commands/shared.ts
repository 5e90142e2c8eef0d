/** Beginnings that many questions share, so that each is said in every way that people say it. */
export const SHARED_RULES = {
  'what-is': "what's | what is",
  'where-is': "where's | where is",
} as const;
