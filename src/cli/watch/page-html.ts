/** The page of the live bench: its script fills it. The token goes with everything it asks for. */
export const benchHtml = (token: string): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>evenrun bench</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/bench.css?token=${token}">
<script defer src="/bench.js?token=${token}"></script>
</head>
<body>
<noscript>This page needs scripts: it draws the header.</noscript>
<div id="bench"></div>
</body>
</html>
`;
