/** The page on which one signs in: plain, whole in itself, for it comes before the workbench. */
export const signInPage = (refused: boolean): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Sign in · Shieldwright</title>
<style>
body { font: 16px/1.5 "DejaVu Sans", sans-serif; margin: 0; min-height: 100vh; display: grid; place-content: center; background: #f4f3ef; color: #1d2226; }
form { display: grid; gap: 12px; width: 320px; }
h1 { font-size: 20px; margin: 0 0 8px; }
label { display: grid; gap: 4px; }
input { font: inherit; padding: 8px; border: 1px solid #5c646b; background: #fff; color: inherit; }
button { font: inherit; padding: 9px; border: 0; background: #1f4e6b; color: #fff; cursor: pointer; }
input:focus-visible, button:focus-visible { outline: 3px solid #c26a00; outline-offset: 1px; }
p { margin: 0; color: #9c1c1c; }
</style>
</head>
<body>
<main>
<form method="post" action="/sign-in">
<h1>Shieldwright</h1>
${refused ? '<p role="alert">Name or password is not right.</p>' : ''}
<label>Name <input name="name" autocomplete="username" required autofocus maxlength="80"></label>
<label>Password <input name="password" type="password" autocomplete="current-password" required maxlength="200"></label>
<button>Sign in</button>
</form>
</main>
</body>
</html>
`
