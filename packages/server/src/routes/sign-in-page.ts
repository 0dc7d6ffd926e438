/** The one page that is shown without a session: a form, no script. */
export const signInPage = (wrong: boolean, people = false): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Sign in · Forcemeat</title>
<link rel="stylesheet" href="/sign-in.css">
</head>
<body>
<main>
<h1>Forcemeat</h1>
<form method="post" action="/api/sign-in">
${
  people
    ? `<label for="person">Your code in this kitchen</label>
<input id="person" name="person" autocomplete="username" autocapitalize="none" spellcheck="false" required autofocus>
`
    : ''
}<label for="passphrase">${people ? 'Your passphrase' : 'Passphrase of this kitchen'}</label>
<input id="passphrase" name="passphrase" type="password" autocomplete="current-password" required${people ? '' : ' autofocus'}${wrong ? ' aria-describedby="wrong"' : ''}>
${wrong ? `<p id="wrong" role="alert">That is not the passphrase${people ? ' of this person' : ''}.</p>\n` : ''}<button>Sign in</button>
</form>
</main>
</body>
</html>
`

export const signInStyle = `body { margin: 0; background: #fbf8f2; color: #1d1a16; font: 18px/1.4 system-ui, sans-serif }
main { max-width: 22rem; margin: 15vh auto 0; padding: 0 1rem }
h1 { font-size: 1.6rem }
label { display: block; margin-bottom: .4rem }
input, button { box-sizing: border-box; width: 100%; min-height: 48px; font: inherit; padding: .5rem .7rem; border: 1px solid #1d1a16; border-radius: 2px }
input { background: #fff; margin-bottom: 1rem }
button { background: #1d1a16; color: #fbf8f2; cursor: pointer }
[role=alert] { color: #8c1d18; margin: 0 0 1rem }
:focus-visible { outline: 3px solid #2d4a63; outline-offset: 2px }
`
