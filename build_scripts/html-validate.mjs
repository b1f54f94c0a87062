/**
 * How html-validate judges the built pages. What is switched off is the theme's own and known:
 * - valid-autocomplete: the theme keeps a browser from remembering two switches in a way the standard does not foresee;
 * - unique-landmark: the table of contents stands in a page twice, and only one of the two is ever shown;
 * - wcag/h32: the forms for search and colours act as one types or picks, and need no button to send them.
 */
export default {
  root: true,
  extends: ["html-validate:standard", "html-validate:a11y"],
  rules: {
    "valid-autocomplete": "off",
    "unique-landmark": "off",
    "wcag/h32": "off",
  },
};
