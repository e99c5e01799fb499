// SPDX-License-Identifier: MIT
// The program lies in `packed`, so that the page is half as large; it is unpacked as the worker begins.
var Module={instantiateWasm:function(imports,ready){var text=atob(packed),bytes=new Uint8Array(text.length);
for(var i=0;i<text.length;i++)bytes[i]=text.charCodeAt(i);
new Promise(function(go){go(new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer());})
.then(function(program){return WebAssembly.instantiate(program,imports);})
.then(function(made){ready(made.instance,made.module);}).catch(fail);return {};}};
// What goes wrong in a promise reaches the page as any error of the worker does.
function fail(e){setTimeout(function(){throw e;});}
