// Shows the phone's window as it is drawn and sends what is done to it, one thing after the other.
'use strict'

const part = (id) => document.getElementById(id)
const picture = part('picture')
const phone = part('window')
const controls = part('controls')
let revision = 0
let state = null

// ---- sending

const waiting = []
let sending = false

function send (path, told) {
  const last = waiting[waiting.length - 1]
  // A finger that moves faster than it can be sent: only where it is now counts.
  if (last && path === 'touch' && last.path === 'touch' && told.kind === 'move' && last.told.kind === 'move') {
    last.told = told
  } else {
    waiting.push({ path, told })
  }
  if (!sending) pump()
}

async function pump () {
  sending = true
  while (waiting.length) {
    const { path, told } = waiting.shift()
    await hand('/' + path, JSON.stringify(told))
  }
  sending = false
}

/** Hands something to the desk and shows what it says against it; its answer where it took it. */
async function hand (path, body) {
  try {
    const answer = await fetch(path, { method: 'POST', body })
    part('trouble').textContent = answer.ok ? '' : await answer.text()
    return answer.ok ? answer : null
  } catch {
    part('trouble').textContent = 'The desk does not answer: was it stopped?'
    return null
  }
}

// ---- showing

async function watch () {
  for (;;) {
    try {
      const answer = await fetch('/state?after=' + revision)
      const next = await answer.json()
      if (next.revision !== revision) await show(next)
      state = next
      part('time').textContent = next.time || 'not known yet'
      if (part('trouble').textContent.startsWith('The desk does not')) part('trouble').textContent = ''
    } catch {
      part('trouble').textContent = 'The desk does not answer: was it stopped?'
      await new Promise((resolve) => setTimeout(resolve, 1000))
    }
  }
}

async function show (next) {
  const answer = await fetch('/screen.png?revision=' + next.revision)
  if (!answer.ok) return
  const address = URL.createObjectURL(await answer.blob())
  const drawn = new Image()
  drawn.src = address
  await drawn.decode()
  const old = picture.src
  picture.src = address
  picture.width = next.width / next.density
  picture.height = next.height / next.density
  if (old) URL.revokeObjectURL(old)
  revision = next.revision
  picture.dataset.revision = next.revision
  put(part('title'), next.title)
  put(part('from'), next.from)
  showControls(next)
  showSwitches(next.switches)
  showSaid(next.said)
  showPicker(next.picker)
}

function put (element, words) {
  if (element.textContent !== words) element.textContent = words
}

function showControls (next) {
  const had = document.activeElement && document.activeElement.parentElement === controls ? document.activeElement.dataset.says : null
  while (controls.children.length > next.controls.length) controls.lastElementChild.remove()
  next.controls.forEach((control, i) => {
    const button = controls.children[i] || controls.appendChild(made())
    button.dataset.number = i
    button.dataset.says = control.says
    button.dataset.field = control.field
    button.dataset.focused = control.focused
    button.dataset.seen = control.at !== null
    button.setAttribute('aria-label', (control.field ? 'Field ' : '') + control.says)
    const at = (control.at || [0, 0, 1, 1]).map((px) => px / next.density + 'px')
    button.style.left = at[0]
    button.style.top = at[1]
    button.style.width = at[2]
    button.style.height = at[3]
  })
  if (had !== null && document.activeElement.dataset.says !== had) {
    const again = [...controls.children].find((button) => button.dataset.says === had)
    if (again) again.focus()
  }
}

function made () {
  const button = document.createElement('button')
  button.type = 'button'
  button.addEventListener('click', () => take(button, true))
  button.addEventListener('focus', () => { if (button.dataset.seen === 'false') take(button, false) })
  return button
}

function take (button, act) {
  send('control', { number: Number(button.dataset.number), says: button.dataset.says, act })
}

function showSwitches (set) {
  for (const select of document.querySelectorAll('[data-switch]')) {
    if (document.activeElement !== select) select.value = set[select.dataset.switch]
  }
}

function showSaid (said) {
  const list = part('said')
  if (list.dataset.all === said.join('\n')) return
  list.dataset.all = said.join('\n')
  list.replaceChildren(...said.map((words) => Object.assign(document.createElement('li'), { textContent: words })))
}

let asked = null

function showPicker (picker) {
  if ((asked && asked.kind) === (picker && picker.kind)) return
  asked = picker
  part('opens').hidden = !picker || picker.kind !== 'open'
  part('saves').hidden = !picker || picker.kind !== 'save'
  part('file').value = ''
}

// ---- touching

let down = false

function touch (kind, event) {
  const at = picture.getBoundingClientRect()
  const scale = state ? state.density : 1
  send('touch', { kind, x: (event.clientX - at.left) * scale, y: (event.clientY - at.top) * scale })
}

picture.addEventListener('pointerdown', (event) => {
  if (event.button !== 0) return
  down = true
  picture.setPointerCapture(event.pointerId)
  phone.focus({ preventScroll: true })
  touch('down', event)
  event.preventDefault()
})
picture.addEventListener('pointermove', (event) => { if (down) touch('move', event) })
for (const [kind, as] of [['pointerup', 'up'], ['pointercancel', 'cancel']]) {
  picture.addEventListener(kind, (event) => {
    if (!down) return
    down = false
    touch(as, event)
  })
}
picture.addEventListener('contextmenu', (event) => event.preventDefault())
phone.addEventListener('wheel', (event) => {
  event.preventDefault()
  send('wheel', { by: Math.round(event.deltaY * (state ? state.density : 1)) })
}, { passive: false })

// ---- typing

phone.addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.key === 'Tab') return
  const on = event.target.parentElement === controls ? event.target : null
  const field = on && on.dataset.field === 'true'
  if (on && !field && (event.key === 'Enter' || event.key === ' ')) return
  if ([...event.key].length > 1 && !['Backspace', 'Enter', 'Escape'].includes(event.key)) return
  if (field && on.dataset.focused === 'false' && event.key !== 'Escape') {
    take(on, true)
    if (event.key === 'Enter') return event.preventDefault()
  }
  send('key', { key: event.key })
  event.preventDefault()
})

phone.addEventListener('paste', (event) => {
  send('text', { text: event.clipboardData.getData('text/plain') })
  event.preventDefault()
})

// ---- the desk

part('set').addEventListener('click', () => send('clock', { at: part('at').value, zone: part('zone').value.trim() }))
part('sign').addEventListener('click', () => {
  send('text', { text: part('signs').value })
  part('signs').value = ''
})

for (const button of document.querySelectorAll('[data-seconds]')) {
  button.addEventListener('click', () => send('time', { seconds: Number(button.dataset.seconds) }))
}
for (const select of document.querySelectorAll('[data-switch]')) {
  select.addEventListener('change', () => send('switch', { name: select.dataset.switch, value: select.value }))
}
part('file').addEventListener('change', () => give(part('file').files[0]))
part('save').addEventListener('click', saved)
for (const button of document.querySelectorAll('.none')) button.addEventListener('click', () => send('none', {}))

function give (file) {
  if (file) hand('/document?name=' + encodeURIComponent(file.name), file)
}

async function saved () {
  const name = asked.name
  const answer = await hand('/saved', '')
  // Stopped, or refused by the phone: its screen says why, and there is nothing to keep.
  if (!answer || answer.status === 204) return
  const link = Object.assign(document.createElement('a'), { href: URL.createObjectURL(await answer.blob()), download: name })
  link.click()
  URL.revokeObjectURL(link.href)
}

part('back').addEventListener('click', () => send('back', {}))
part('death').addEventListener('click', () => send('death', {}))

watch()
